#pragma once

#include <cstdlib>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "scene.h"

// The rules of safety.md told a second time: one question, one answer, numbers written out, nothing shared
// with the code under test but the records. Slow and plain on purpose.
namespace mitefall::safety::plain {

using records::Condition;
using records::Method;

enum class Kind {
    snake,
    some_snake,
    small_snake,
    ball_python,
    indigo,
    skink,
    gecko,
    tortoise,
    caiman,
    frog,
    dog,
    viper,
    tree_python,  // of the rainforest
    unknown
};

/// Names the tests use, and what they are.
inline const std::map<std::string, Kind>& kinds() {
    static const std::map<std::string, Kind> known{{"corn snake", Kind::snake},
                                                   {"Boa imperator", Kind::snake},
                                                   {"unlisted snake", Kind::some_snake},
                                                   {"garter snake", Kind::small_snake},
                                                   {"western hognose", Kind::viper},  // rear-fanged
                                                   {"western hognose", Kind::viper},
                                                   {"BALL-python", Kind::ball_python},
                                                   {"Drymarchon couperi", Kind::indigo},
                                                   {"fire skink", Kind::skink},
                                                   {"leopard gecko", Kind::gecko},
                                                   {"Testudo hermanni", Kind::tortoise},
                                                   {"dwarf caiman", Kind::caiman},
                                                   {"dart frog", Kind::frog},
                                                   {"dog", Kind::dog},
                                                   {"copperhead", Kind::viper},
                                                   {"green tree python", Kind::tree_python},
                                                   {"", Kind::unknown},
                                                   {"corn snak", Kind::unknown}};
    return known;
}
inline Kind kind_of(const std::string& taxon) { return kinds().at(taxon); }

inline bool is_snake(Kind kind) {
    return kind == Kind::snake || kind == Kind::some_snake || kind == Kind::small_snake ||
           kind == Kind::ball_python || kind == Kind::viper || kind == Kind::tree_python;
}
inline bool is_spray(Method m) { return m == Method::spray_animal || m == Method::spray_bedding; }
inline bool is_remedy(Method m) { return m == Method::oil_wipe || m == Method::soap_wash; }
inline bool is_gentle(Method m) {
    return m == Method::soak || m == Method::wipe || m == Method::clear_head ||
           m == Method::change_substrate || is_remedy(m) || m == Method::heat_objects ||
           m == Method::freeze_objects || m == Method::desiccant_dust || m == Method::predatory_mites ||
           m == Method::fresh_tub;
}
/// New paper, heat or cold for things: whatever the animal is, it is not concerned.
inline bool is_housework(Method m) {
    return m == Method::change_substrate || m == Method::heat_objects || m == Method::freeze_objects;
}
inline bool takes_the_animal_in_hand(Method m) {
    return m == Method::spray_animal || m == Method::soak || m == Method::wipe || m == Method::clear_head ||
           m == Method::fipronil_wipe || is_remedy(m);
}
inline bool is_by_vet(Method m) {
    return m == Method::oral_afoxolaner || m == Method::oral_fluralaner || m == Method::injected_ivermectin;
}
inline bool is_permethrin(Method m) { return m == Method::treat_room || m == Method::permethrin_empty; }
inline bool is_on_animal(Method m) {
    return m == Method::spray_animal || m == Method::fipronil_wipe || is_by_vet(m);
}

inline std::string drug(Method m) {
    if (is_spray(m) || m == Method::injected_ivermectin) return "ivermectin";
    if (is_permethrin(m)) return "permethrin";
    if (m == Method::fipronil_wipe) return "fipronil";
    return is_gentle(m) ? "" : "isoxazoline";
}

inline bool shares_air_with(const records::Collection& c, const records::Animal& self,
                            const std::set<Kind>& which) {
    const records::RoomId room = c.enclosures.at(self.enclosure).room;
    for (const auto& b : c.bystanders) {
        if ((b.room.empty() || b.room == room) && which.contains(kind_of(b.taxon))) return true;
    }
    for (const auto& [id, other] : c.animals) {
        if (id != self.id && c.enclosures.at(other.enclosure).room == room &&
            which.contains(kind_of(other.taxon)))
            return true;
    }
    return false;
}

/// Who comes back wet from the spray wets these.
inline std::vector<const records::Animal*> wetted_by(const records::Collection& c, const records::Animal& a,
                                                     Method m) {
    std::vector<const records::Animal*> mates;
    for (const auto& [id, other] : c.animals) {
        if (m == Method::spray_animal && id != a.id && other.enclosure == a.enclosure)
            mates.push_back(&other);
    }
    return mates;
}

inline bool is_possible(double strength) { return strength > 0 && strength <= 1e6; }

inline bool is_of_wood(const records::Collection& c, const records::Animal& a) {
    return c.enclosures.at(a.enclosure).material == records::Material::porous;
}

/// In the enclosure, or where the whole room is treated in any of its enclosures.
inline bool is_near_eggs(const records::Collection& c, const records::Animal& a, Method m) {
    const records::Enclosure& home = c.enclosures.at(a.enclosure);
    if (m != Method::treat_room) return home.eggs.has_value() && !is_by_vet(m);
    for (const auto& [id, other] : c.enclosures) {
        if (other.room == home.room && other.eggs) return true;
    }
    return false;
}

/// Forbidden whoever asks.
inline bool is_never(const records::Collection& c, const records::Animal& a, Method m, double strength,
                     units::Day day) {
    for (const records::Animal* mate : wetted_by(c, a, m)) {
        if (is_never(c, *mate, Method::spray_bedding, strength, day)) return true;
    }
    const Kind kind = kind_of(a.taxon);
    if (is_near_eggs(c, a, m)) return true;
    if (kind == Kind::viper && takes_the_animal_in_hand(m)) return true;
    if (m == Method::fresh_tub && (kind == Kind::viper || is_of_wood(c, a))) return true;
    if (is_spray(m) && is_possible(strength) && strength > 250 * (1 + 1e-9)) return true;
    if (!is_gentle(m) && kind == Kind::indigo) return true;
    if (!is_gentle(m) && kind == Kind::skink && drug(m) != "isoxazoline") return true;
    if (drug(m) == "ivermectin" && (kind == Kind::tortoise || kind == Kind::caiman)) return true;
    if (is_spray(m) && shares_air_with(c, a, {Kind::tortoise, Kind::caiman})) return true;
    if (is_spray(m) && kind == Kind::tree_python) return true;  // the dish would be out
    if (m != Method::fipronil_wipe) return false;
    const bool weight_counts = a.weight && a.weight->day <= day && (day - a.weight->day).count() <= 60;
    return kind == Kind::ball_python || kind == Kind::small_snake ||
           (weight_counts && units::in_grams(a.weight->value) > 0 && units::in_grams(a.weight->value) < 200);
}

/// Something must be found out first.
inline bool lacks_a_fact(const records::Collection& c, const records::Animal& a, Method m, double strength,
                         units::Day day) {
    for (const records::Animal* mate : wetted_by(c, a, m)) {
        if (lacks_a_fact(c, *mate, Method::spray_bedding, strength, day)) return true;
    }
    if (is_housework(m)) return false;
    if (kind_of(a.taxon) == Kind::unknown) return true;
    if (is_spray(m) && shares_air_with(c, a, {Kind::unknown})) return true;
    if ((is_spray(m) || is_permethrin(m)) && !is_possible(strength)) return true;
    if (!is_spray(m) && m != Method::fipronil_wipe) return false;
    return !a.weight || a.weight->day > day || (day - a.weight->day).count() > 60 ||
           !(units::in_grams(a.weight->value) > 0);
}

/// When something came on record: its day, then the number of its entry.
using Moment = std::pair<units::Day, records::FactId>;

struct Deed {
    Method method;
    units::Day day;
    std::optional<Moment> recorded;  ///< empty: only proposed
};

/// Everything on record about the animal and its place, each entry once, and everything proposed.
inline std::vector<Deed> told(const records::Animal& a, const std::vector<Application>& proposed) {
    std::map<records::FactId, Deed> recorded;
    for (const auto& t : a.treatments)
        recorded.emplace(t.entry, Deed{t.value.method, t.day, Moment(t.day, t.entry)});
    for (const auto& t : a.exposures)
        recorded.emplace(t.entry, Deed{t.value.method, t.day, Moment(t.day, t.entry)});
    std::vector<Deed> all;
    for (const auto& [entry, deed] : recorded) all.push_back(deed);
    for (const Application& p : proposed) all.push_back({p.method, p.day, std::nullopt});
    return all;
}

/// Sprayed paper stays wet that day and the two days after it, unless it was changed, or the dish came back,
/// on a day before: on each of these days whoever lives there lies on it. Known since the spraying and the
/// stay.
inline std::vector<Deed> lain_on(const records::Collection& c, const records::Animal& a) {
    std::vector<Deed> all;
    const auto lie = [&](const records::Residence& stay, units::Day sprayed, records::FactId entry) {
        const records::Enclosure& place = c.enclosures.at(stay.enclosure);
        for (int later = 0; later <= 2; ++later) {
            const units::Day day = sprayed + units::Days(later);
            const auto is_between = [&](units::Day dried) { return sprayed < dried && dried < day; };
            bool is_dry = place.substrate_changed && is_between(*place.substrate_changed);
            for (const auto& spell : place.dry_spells) is_dry |= is_between(spell.back);
            for (const auto& t : place.treatments)
                is_dry |=
                    (t.value.method == Method::change_substrate || t.value.method == Method::fresh_tub) &&
                    is_between(t.day);
            if (is_dry || day < stay.from || (stay.until && day > *stay.until)) continue;
            all.push_back({Method::spray_bedding, day,
                           std::max(Moment(sprayed, entry), Moment(stay.from, stay.entry))});
        }
    };
    for (const records::Residence& stay : a.stays) {
        for (const auto& t : c.enclosures.at(stay.enclosure).treatments) {
            if (t.value.method == Method::spray_bedding) lie(stay, t.day, t.entry);
        }
        for (const auto& wetting : c.enclosures.at(stay.enclosure).wetted)
            lie(stay, wetting.day, wetting.entry);
    }
    return all;
}

/// Also what it lay on.
inline std::vector<Deed> all_told(const records::Collection& c, const records::Animal& a,
                                  const std::vector<Application>& proposed) {
    std::vector<Deed> all = told(a, proposed);
    for (const Deed& deed : lain_on(c, a)) all.push_back(deed);
    return all;
}

inline bool puts_drug_on_skin(Method m) { return is_spray(m) || m == Method::fipronil_wipe; }

/// Where it is sprayed the dish is out: not for these, whatever a veterinarian directs about the spray.
inline bool must_keep_its_dish(const records::Animal& a, units::Day day) {
    for (const auto& n : a.conditions) {
        if (n.value.condition == Condition::thin || n.value.condition == Condition::dehydrated ||
            n.value.condition == Condition::neonate)
            return true;
    }
    const bool weight_counts = a.weight && a.weight->day <= day && (day - a.weight->day).count() <= 60;
    return kind_of(a.taxon) == Kind::tree_python || (weight_counts && units::in_grams(a.weight->value) < 160);
}

/// A cloudy one never on the day of the records; later from the day after the tenth, or the fourth after it
/// was last seen so. One with clear eyes from the eighth.
inline bool waits_for_a_shed(const records::Collection& c, const records::Animal& a, units::Day day) {
    if (!a.shed || a.shed->value == records::ShedState::shed) return false;
    if (a.shed->value == records::ShedState::clear) return (day - a.shed->day).count() < 8;
    const units::Day since = a.cloudy_since.value_or(a.shed->day);
    const bool is_told_again = since < a.shed->day;
    return day <= c.day || (day - since).count() < 11 || (is_told_again && (day - a.shed->day).count() < 4);
}

/// The day of a meal does not count, as nobody knows the hour; two more are its rest, four where it was above
/// 15 % of the body or nobody knows, ten after one came up.
inline bool rests_after_a_meal(const records::Animal& a, units::Day day) {
    const bool weight_counts = a.weight && a.weight->day <= day && (day - a.weight->day).count() <= 60 &&
                               units::in_grams(a.weight->value) > 0;
    std::map<units::Day, std::vector<double>> eaten;
    for (const auto& meal : a.meals) {
        const auto ago = (day - meal.day).count();
        if (meal.value.outcome == records::MealOutcome::regurgitated && ago <= 10) return true;
        if (meal.value.outcome == records::MealOutcome::eaten)
            eaten[meal.day].push_back(units::in_grams(meal.value.mass));
    }
    for (const auto& [on, masses] : eaten) {
        double all = 0;
        bool is_small = weight_counts;
        for (const double mass : masses) {
            all += mass;
            is_small = is_small && mass > 0;
        }
        is_small = is_small && all <= 0.15 * units::in_grams(a.weight->value);
        if ((day - on).count() <= (is_small ? 2 : 4)) return true;
    }
    return false;
}

inline bool must_wait(const records::Collection& c, const records::Animal& a, Method m, units::Day day,
                      const std::vector<Application>& proposed) {
    if (m == Method::treat_room) return true;  // it lives there
    if (is_spray(m) && must_keep_its_dish(a, day)) return true;
    for (const records::Animal* mate : wetted_by(c, a, m)) {
        if (must_wait(c, *mate, Method::spray_bedding, day, {})) return true;
    }
    const bool touches = is_spray(m) || takes_the_animal_in_hand(m);
    if ((touches || m == Method::fresh_tub) && rests_after_a_meal(a, day)) return true;
    if (touches && waits_for_a_shed(c, a, day) && m != Method::soak) return true;  // water does no harm
    if (touches && a.shed && a.shed->value == records::ShedState::shed && day <= a.shed->day) return true;
    for (const Deed& other : all_told(c, a, proposed)) {
        const auto apart = std::abs((other.day - day).count());
        if (is_on_animal(m) && is_on_animal(other.method) && apart < 3) return true;
        if (m == Method::oil_wipe && puts_drug_on_skin(other.method) && apart < 7) return true;
        if (puts_drug_on_skin(m) && other.method == Method::oil_wipe && apart < 7) return true;
    }
    if (m != Method::predatory_mites) return false;
    std::vector<Application> in_the_enclosure = proposed;
    for (const auto& t : c.enclosures.at(a.enclosure).treatments)
        in_the_enclosure.push_back({t.value.method, t.day});
    for (const Application& other : in_the_enclosure) {
        const bool deadly = !drug(other.method).empty() || other.method == Method::desiccant_dust;
        if (deadly && std::abs((other.day - day).count()) < 30) return true;
    }
    return false;
}

inline bool is_fourth(const records::Animal& a, units::Day day, const std::vector<Application>& proposed) {
    std::map<int, int> on_day;               // day relative to the one asked about -> applications
    std::set<std::pair<Method, int>> known;  // told twice is done once
    for (const Deed& p : told(a, proposed)) {
        const int on = static_cast<int>((p.day - day).count());
        if (!is_on_animal(p.method) || (p.recorded && !known.insert({p.method, on}).second)) continue;
        on_day[on] += 1;
    }
    on_day[0] += 1;
    for (int first = -59; first <= 0; ++first) {  // every span of 60 days that contains the day
        int number = 0;
        for (int d = first; d < first + 60; ++d) number += on_day.contains(d) ? on_day[d] : 0;
        if (number > 3) return true;
    }
    return false;
}

/// A question for a veterinarian, and since when it could have been put to one.
struct Question {
    std::optional<Moment> since;  ///< empty: it was so all along
    bool can_be_known = true;     ///< false: about another animal, or about what is only proposed
};

/// A question that arises from all of these together.
inline Question from(const std::vector<Deed>& deeds) {
    Question question;
    for (const Deed& deed : deeds) {
        if (!deed.recorded) question.can_be_known = false;
        if (deed.recorded && (!question.since || *question.since < *deed.recorded))
            question.since = deed.recorded;
    }
    return question;
}

template <class Test>
std::vector<Deed> those(const std::vector<Deed>& deeds, Test test) {
    std::vector<Deed> found;
    std::copy_if(deeds.begin(), deeds.end(), std::back_inserter(found), test);
    return found;
}

inline bool condition_needs_vet(const records::ConditionNoted& n, Method m, long days_ago) {
    const bool on_the_animal = takes_the_animal_in_hand(m) || is_by_vet(m);
    if (on_the_animal && n.condition == Condition::reacted && std::abs(days_ago) < 14) return true;
    const bool is_about_the_place = m == Method::desiccant_dust || m == Method::predatory_mites;
    if (is_housework(m) || is_about_the_place || m == Method::fresh_tub) return false;
    if (is_remedy(m)) {
        return n.condition != Condition::reacted || (n.agent != "ivermectin" && n.agent != "Permethrin");
    }
    if (is_gentle(m)) {
        return n.condition == Condition::sick || n.condition == Condition::neurological ||
               n.condition == Condition::gravid || (n.condition == Condition::thin && m == Method::soak);
    }
    // The agents the tests write: "", "the blue bottle", "ivermectin", "Permethrin".
    if (n.condition == Condition::reacted && n.agent == "ivermectin") return drug(m) == "ivermectin";
    if (n.condition == Condition::reacted && n.agent == "Permethrin") return drug(m) == "permethrin";
    return n.condition == Condition::reacted || m != Method::treat_room;
}

/// Acknowledged for this animal by that day.
inline bool is_acknowledged(const records::Animal& a, double strength, units::Day day) {
    for (const auto& one : a.acknowledged) {
        if (one.day <= day && strength <= units::in_milligrams_per_litre(one.value) * (1 + 1e-9)) return true;
    }
    return false;
}

/// The weighing from which on all were below `grams`.
inline Moment light_since(const records::Animal& a, double grams) {
    Moment since(a.weight->day, a.weight->entry);
    for (std::size_t i = a.weighings.size(); i > 0; --i) {
        if (units::in_grams(a.weighings[i - 1].value) >= grams) break;
        since = Moment(a.weighings[i - 1].day, a.weighings[i - 1].entry);
    }
    return since;
}

inline bool reaches(const records::VetDirection& direction, Method m, double strength, long others);

/// The direction that counts: the latest given by that day, if it goes that far.
inline std::optional<Moment> directed(const records::Animal& a, Method m, double strength, units::Day day,
                                      const std::vector<Application>& proposed) {
    const records::DatedValue<records::VetDirection>* last = nullptr;
    for (const auto& d : a.directions) {
        if (d.value.method == m && d.day <= day && (last == nullptr || d.day >= last->day)) last = &d;
    }
    if (last == nullptr) return std::nullopt;
    const auto others =
        those(told(a, proposed), [&](const Deed& deed) { return deed.method == m && deed.day >= last->day; });
    if (!reaches(last->value, m, strength, static_cast<long>(others.size()))) return std::nullopt;
    return Moment(last->day, last->entry);
}

/// Without a number it is for one treatment, without a strength for none above the usual ones.
inline bool reaches(const records::VetDirection& direction, Method m, double strength, long others) {
    if (others >= (direction.treatments == 0 ? 1 : direction.treatments)) return false;
    if (!is_spray(m) && !is_permethrin(m)) return true;
    const double named = units::in_milligrams_per_litre(direction.strength);
    return strength <= (named > 0 ? named : is_spray(m) ? 10.6 : 5000.0) * (1 + 1e-9);
}

inline std::vector<Question> questions_for_vet(const records::Collection& c, const records::Animal& a,
                                               Method m, double strength, units::Day day,
                                               const std::vector<Application>& proposed);

/// Every question was before the veterinarian who gave the direction.
inline bool is_settled(const std::vector<Question>& questions, const std::optional<Moment>& directed_on) {
    for (const Question& question : questions) {
        if (!directed_on || !question.can_be_known) return false;
        if (question.since && !(*question.since < *directed_on)) return false;
    }
    return true;
}

inline void ask_about_kind(Kind kind, Method m, std::vector<Question>& questions) {
    if (is_by_vet(m) || m == Method::fipronil_wipe) questions.push_back({});
    if (!is_gentle(m) && (!is_snake(kind) || kind == Kind::some_snake)) questions.push_back({});
    const bool bears = kind != Kind::caiman && kind != Kind::frog && kind != Kind::dog;
    if (is_gentle(m) && !is_housework(m) && !bears) questions.push_back({});
    const bool has_lids = kind == Kind::skink || kind == Kind::gecko || kind == Kind::tortoise;
    if (m == Method::clear_head && has_lids) questions.push_back({});
    const bool in_hand = m == Method::soak || m == Method::wipe || m == Method::clear_head || is_remedy(m);
    if (in_hand && kind == Kind::some_snake) questions.push_back({});  // it may be venomous
}

/// Grown, some do not fit into a plain tub; others need more than one gives.
inline void ask_about_tub(const records::Animal& a, Method m, units::Day day,
                          std::vector<Question>& questions) {
    if (m != Method::fresh_tub) return;
    const Kind kind = kind_of(a.taxon);
    if (kind == Kind::some_snake) questions.push_back({});  // it may be venomous
    if (kind == Kind::skink || kind == Kind::gecko || kind == Kind::tortoise) questions.push_back({});
    const bool is_small = a.weight && a.weight->day <= day && (day - a.weight->day).count() <= 60 &&
                          units::in_grams(a.weight->value) > 0 && units::in_grams(a.weight->value) <= 2000;
    if (kind == Kind::some_snake && !is_small) questions.push_back({});
}

inline void ask_about_weight(const records::Animal& a, Method m, std::vector<Question>& questions) {
    if (!is_spray(m) || !a.weight) return;
    const double grams = units::in_grams(a.weight->value);
    if (grams < 160) {
        questions.push_back({light_since(a, 160)});
    } else if (m == Method::spray_animal && grams < 200) {
        questions.push_back({light_since(a, 200)});
    }
}

inline void ask_about_deeds(const records::Collection& c, const records::Animal& a, Method m, units::Day day,
                            const std::vector<Application>& proposed, std::vector<Question>& questions) {
    const auto within = [&](const Deed& deed, int days) { return std::abs((deed.day - day).count()) < days; };
    const auto all = all_told(c, a, proposed);
    if (is_on_animal(m) && is_fourth(a, day, proposed)) {
        questions.push_back(from(those(all, [&](const Deed& deed) {
            return is_on_animal(deed.method) && deed.method != m && within(deed, 60);
        })));
    }
    const auto injected = [](Method x) { return x == Method::injected_ivermectin; };
    const auto both_ways = those(all, [&](const Deed& deed) {
        return ((injected(m) && is_spray(deed.method)) || (is_spray(m) && injected(deed.method))) &&
               within(deed, 14);
    });
    if (!both_ways.empty()) questions.push_back(from(both_ways));
    if (!is_on_animal(m) && m != Method::spray_bedding) return;
    const auto second_drugs = those(all, [&](const Deed& deed) {
        const bool takes = is_on_animal(deed.method) || deed.method == Method::spray_bedding;
        return takes && drug(deed.method) != drug(m) && within(deed, 60);
    });
    if (!second_drugs.empty()) questions.push_back(from(second_drugs));
}

/// Two that came up within 60 days; prey that had been treated.
inline void ask_about_meals(const records::Animal& a, Method m, units::Day day,
                            std::vector<Question>& questions) {
    const bool takes_drug = is_on_animal(m) || m == Method::spray_bedding;
    const bool disturbs = takes_the_animal_in_hand(m) || is_spray(m) || m == Method::fresh_tub;
    std::vector<Moment> came_up;
    for (const auto& meal : a.meals) {
        if (std::abs((meal.day - day).count()) >= 60) continue;
        const Moment moment(meal.day, meal.entry);
        if (meal.value.outcome == records::MealOutcome::regurgitated) came_up.push_back(moment);
        if (takes_drug && meal.value.treated_prey && meal.value.outcome != records::MealOutcome::refused)
            questions.push_back({moment});
    }
    if (disturbs && came_up.size() >= 2)
        questions.push_back({*std::max_element(came_up.begin(), came_up.end())});
}

/// What a veterinarian may decide.
inline std::vector<Question> questions_for_vet(const records::Collection& c, const records::Animal& a,
                                               Method m, double strength, units::Day day,
                                               const std::vector<Application>& proposed) {
    std::vector<Question> questions;
    for (const records::Animal* mate : wetted_by(c, a, m)) {
        const Method wet = Method::spray_bedding;
        if (!is_settled(questions_for_vet(c, *mate, wet, strength, day, {}),
                        directed(*mate, wet, strength, day, {})))
            questions.push_back({std::nullopt, false});
    }
    ask_about_kind(kind_of(a.taxon), m, questions);
    ask_about_tub(a, m, day, questions);
    ask_about_meals(a, m, day, questions);
    ask_about_weight(a, m, questions);
    ask_about_deeds(c, a, m, day, proposed, questions);
    for (const auto& n : a.conditions) {
        if (condition_needs_vet(n.value, m, (day - n.day).count()))
            questions.push_back({Moment(n.day, n.entry)});
    }
    if (is_spray(m) && strength > 10.6 * (1 + 1e-9) && !is_acknowledged(a, strength, day))
        questions.push_back({});
    if (is_permethrin(m) && strength > 5000 * (1 + 1e-9)) questions.push_back({});
    return questions;
}

/// The whole answer for one animal.
inline bool may_be_done(const records::Collection& c, const records::Animal& a, Method m, double strength,
                        units::Day day, const std::vector<Application>& proposed) {
    if (is_never(c, a, m, strength, day) || lacks_a_fact(c, a, m, strength, day) ||
        must_wait(c, a, m, day, proposed))
        return false;
    return is_settled(questions_for_vet(c, a, m, strength, day, proposed),
                      directed(a, m, strength, day, proposed));
}

}  // namespace mitefall::safety::plain
