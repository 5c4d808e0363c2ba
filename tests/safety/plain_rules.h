#pragma once

#include <cstdlib>
#include <map>
#include <set>
#include <string>
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
                                                   {"western hognose", Kind::small_snake},
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
    return m == Method::soak || m == Method::wipe || m == Method::change_substrate || is_remedy(m) ||
           m == Method::heat_objects || m == Method::freeze_objects || m == Method::desiccant_dust ||
           m == Method::predatory_mites;
}
/// New paper, heat or cold for things: whatever the animal is, it is not concerned.
inline bool is_housework(Method m) {
    return m == Method::change_substrate || m == Method::heat_objects || m == Method::freeze_objects;
}
inline bool takes_the_animal_in_hand(Method m) {
    return m == Method::spray_animal || m == Method::soak || m == Method::wipe ||
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

/// Forbidden whoever asks.
inline bool is_never(const records::Collection& c, const records::Animal& a, Method m, units::Day day) {
    for (const records::Animal* mate : wetted_by(c, a, m)) {
        if (is_never(c, *mate, Method::spray_bedding, day)) return true;
    }
    const Kind kind = kind_of(a.taxon);
    if (!is_gentle(m) && (kind == Kind::indigo || kind == Kind::skink)) return true;
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
    if ((is_spray(m) || is_permethrin(m)) && !(strength > 0 && strength <= 1e6)) return true;
    if (!is_spray(m) && m != Method::fipronil_wipe) return false;
    return !a.weight || a.weight->day > day || (day - a.weight->day).count() > 60 ||
           !(units::in_grams(a.weight->value) > 0);
}

/// Everything on record about the animal and its place, and everything proposed: method and day.
inline std::vector<Application> told(const records::Animal& a, const std::vector<Application>& proposed) {
    std::vector<Application> all = proposed;
    for (const auto& t : a.treatments) all.push_back({t.value.method, t.day});
    for (const auto& t : a.exposures) all.push_back({t.value.method, t.day});
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

inline bool must_wait(const records::Collection& c, const records::Animal& a, Method m, units::Day day,
                      const std::vector<Application>& proposed) {
    if (m == Method::treat_room) return true;  // it lives there
    if (is_spray(m) && must_keep_its_dish(a, day)) return true;
    for (const records::Animal* mate : wetted_by(c, a, m)) {
        if (must_wait(c, *mate, Method::spray_bedding, day, {})) return true;
    }
    const bool touches = is_spray(m) || takes_the_animal_in_hand(m);
    if (touches && a.shed && (a.shed->value == records::ShedState::cloudy || day <= a.shed->day)) return true;
    for (const Application& other : told(a, proposed)) {
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
    std::map<int, int> on_day;  // day relative to the one asked about -> applications
    for (const Application& p : told(a, proposed))
        on_day[static_cast<int>((p.day - day).count())] += is_on_animal(p.method) ? 1 : 0;
    on_day[0] += 1;
    for (int first = -59; first <= 0; ++first) {  // every span of 60 days that contains the day
        int number = 0;
        for (int d = first; d < first + 60; ++d) number += on_day.contains(d) ? on_day[d] : 0;
        if (number > 3) return true;
    }
    return false;
}

inline bool is_second_drug(const records::Animal& a, Method m, units::Day day,
                           const std::vector<Application>& proposed) {
    const auto clashes = [&](Method other, units::Day on) {
        const bool reaches = is_on_animal(other) || other == Method::spray_bedding;
        return reaches && drug(other) != drug(m) && std::abs((on - day).count()) < 60;
    };
    for (const Application& p : told(a, proposed)) {
        if (clashes(p.method, p.day)) return true;
    }
    return false;
}

inline bool condition_needs_vet(const records::ConditionNoted& n, Method m, long days_ago) {
    const bool on_the_animal = takes_the_animal_in_hand(m) || is_by_vet(m);
    if (on_the_animal && n.condition == Condition::reacted && std::abs(days_ago) < 14) return true;
    if (is_housework(m) || m == Method::desiccant_dust || m == Method::predatory_mites) return false;
    if (is_remedy(m)) {
        return n.condition != Condition::reacted || (n.agent != "ivermectin" && n.agent != "Permethrin");
    }
    if (is_gentle(m)) {
        return n.condition == Condition::sick || n.condition == Condition::neurological ||
               n.condition == Condition::gravid;
    }
    // The agents the tests write: "", "the blue bottle", "ivermectin", "Permethrin".
    if (n.condition == Condition::reacted && n.agent == "ivermectin") return drug(m) == "ivermectin";
    if (n.condition == Condition::reacted && n.agent == "Permethrin") return drug(m) == "permethrin";
    return n.condition == Condition::reacted || m != Method::treat_room;
}

inline bool has_direction(const records::Animal& a, Method m, units::Day day) {
    for (const auto& d : a.directions) {
        if (d.value.method == m && d.day <= day) return true;
    }
    return false;
}

/// A veterinarian may decide it.
inline bool needs_vet(const records::Collection& c, const records::Animal& a, Method m, double strength,
                      units::Day day, const std::vector<Application>& proposed) {
    for (const records::Animal* mate : wetted_by(c, a, m)) {
        const Method wet = Method::spray_bedding;
        if (needs_vet(c, *mate, wet, strength, day, {}) && !has_direction(*mate, wet, day)) return true;
    }
    const Kind kind = kind_of(a.taxon);
    if (is_by_vet(m) || m == Method::fipronil_wipe) return true;
    if (!is_gentle(m) && (!is_snake(kind) || kind == Kind::some_snake)) return true;
    if (kind == Kind::viper && takes_the_animal_in_hand(m)) return true;
    if (is_gentle(m) && !is_housework(m) && (kind == Kind::caiman || kind == Kind::frog || kind == Kind::dog))
        return true;
    for (const auto& n : a.conditions) {
        if (condition_needs_vet(n.value, m, (day - n.day).count())) return true;
    }
    if (is_spray(m) && strength > 10.6 * (1 + 1e-9) &&
        !(c.acknowledged && strength <= units::in_milligrams_per_litre(*c.acknowledged) * (1 + 1e-9))) {
        return true;
    }
    if (is_permethrin(m) && strength > 5000 * (1 + 1e-9)) return true;
    if (m == Method::spray_animal && (!a.weight || units::in_grams(a.weight->value) < 200)) return true;
    if (m == Method::spray_bedding && (!a.weight || units::in_grams(a.weight->value) < 160)) return true;
    if (is_on_animal(m) && is_fourth(a, day, proposed)) return true;
    return (is_on_animal(m) || m == Method::spray_bedding) && is_second_drug(a, m, day, proposed);
}

/// The whole answer for one animal.
inline bool may_be_done(const records::Collection& c, const records::Animal& a, Method m, double strength,
                        units::Day day, const std::vector<Application>& proposed) {
    if (is_never(c, a, m, day) || lacks_a_fact(c, a, m, strength, day) || must_wait(c, a, m, day, proposed))
        return false;
    return !needs_vet(c, a, m, strength, day, proposed) || has_direction(a, m, day);
}

}  // namespace mitefall::safety::plain
