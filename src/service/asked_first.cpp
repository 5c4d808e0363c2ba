#include "service/asked_first.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "records/method.h"
#include "safety/water.h"
#include "service/asked.h"
#include "service/clearance.h"
#include "service/departure.h"
#include "service/rescore.h"
#include "service/stand.h"
#include "service/worklist.h"
#include "units/day.h"
#include "units/whole_days.h"
#include "words/words.h"

namespace mitefall::service {
namespace {

using records::Animal;
using records::AnimalId;
using records::Collection;
using records::EnclosureId;
using statement::Names;
using statement::Statement;
using units::Day;
using units::Days;
using worklist::Danger;

std::string lower(std::string text) {
    for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return text;
}

/// Goes through facts in order and asks about each as things stand by then.
class Asker {
  public:
    Asker(const Collection& today, const worklist::Overview& overview, const Knowledge& knowledge,
          const ReleaseChance& chance)
        : today_(today), knowledge_(knowledge), chance_(chance) {
        for (const auto& room : overview.rooms) {
            for (const auto& enclosure : room.enclosures) dangers_[enclosure.enclosure] = enclosure.danger;
        }
        for (const auto& [id, animal] : today.animals) {
            places_[id] = animal.enclosure;
            names_.emplace(lower(animal.name), animal.name);
        }
    }

    /// What comes next is about the fact of that number.
    void turn_to(std::size_t fact) { fact_ = fact; }

    void hear(const records::AnimalArrived& fact) {
        places_[fact.animal] = fact.enclosure;
        if (names_.emplace(lower(fact.name), fact.name).second) return;
        Ask ask = about(AskKind::same_name, fact.animal);
        ask.says = {asked::second_of_its_name(fact.name)};
        ask.key = fmt::format("same-name:{}", fact.animal.text());
        asks_.push_back(std::move(ask));
    }

    void hear(const records::AnimalMoved& fact) {
        const auto place = places_.find(fact.animal);
        if (place == places_.end() || place->second == fact.to) return;
        Ask ask = about(AskKind::move, fact.animal);
        place->second = fact.to;
        ask.to = fact.to;
        ask.to_danger = danger_of(fact.to);
        ask_for_water(ask);
        const bool apart = leaves_quarantine(fact.animal, *ask.from, fact.to);
        if (ask.from_danger == Danger::healthy && ask.to_danger == Danger::healthy && !apart) return;
        ask.says = {asked::goes_between(called(fact.animal), tell_danger(called(*ask.from), ask.from_danger),
                                        tell_danger(called(fact.to), ask.to_danger))};
        if (ask.from_danger > Danger::healthy)
            ask.says.push_back(asked::can_carry_them_along());
        else if (ask.to_danger > Danger::healthy)
            ask.says.push_back(asked::can_catch_them_there());
        if (apart) ask.says.push_back(asked::goes_to_others());
        const bool is_risky = ask.from_danger > Danger::healthy || ask.to_danger > Danger::healthy;
        if (is_risky && is_lived_in(fact.to, fact.animal)) ask.says.push_back(asked::pairing_waits());
        ask.key = fmt::format("move:{}:{}-{}:{}-{}{}", fact.animal.text(), ask.from->text(),
                              worklist::to_text(ask.from_danger), fact.to.text(),
                              worklist::to_text(ask.to_danger), apart ? ":quarantine" : "");
        asks_.push_back(std::move(ask));
    }

    void hear(const records::AnimalLeft& fact) {
        if (!places_.contains(fact.animal)) return;
        Ask ask = about(AskKind::departure, fact.animal);
        places_.erase(fact.animal);
        if (is_dead(fact)) return;
        const auto known = today_.animals.find(fact.animal);
        Animal animal = known == today_.animals.end() ? Animal() : known->second;
        animal.id = fact.animal;
        ask.says = risk_of_leaving(animal, *ask.from, ask.from_danger, today_, knowledge_.tables);
        if (ask.says.empty()) return;
        ask.tell = warning(fact.animal, ask.from_danger);
        ask.key =
            fmt::format("departure:{}:{}-{}{}", fact.animal.text(), ask.from->text(),
                        worklist::to_text(ask.from_danger), is_kept_apart(fact.animal) ? ":quarantine" : "");
        asks_.push_back(std::move(ask));
    }

    void hear(const records::QuarantineEnded& fact) {
        const auto animal = today_.animals.find(fact.animal);
        if (animal == today_.animals.end() || !animal->second.quarantine || !is_blank(fact.reason)) return;
        Ask ask = about(AskKind::quarantine_end, fact.animal);
        ask.needs_reason = true;
        const Names who = called(fact.animal);
        const auto add = [&ask](Doubt doubt, Statement says) {
            ask.doubts.push_back(doubt);
            ask.says.push_back(std::move(says));
        };
        if (const auto day = mites_in_room(animal->second, today_, knowledge_.tables))
            add(Doubt::mites_in_room, asked::mites_seen_in_room_of(who, *day));
        const Day usual =
            animal->second.arrived + units::at_least_days(knowledge_.tables.time("quarantine").low);
        if (today_.day < usual) add(Doubt::too_early, asked::quarantine_usually_lasts(who, usual));
        const auto chance = chance_ ? chance_(fact.animal) : std::nullopt;
        if (!chance)
            add(Doubt::chance_unknown, asked::chance_not_worked_out(who));
        else if (*chance < wanted_to_release)
            add(Doubt::chance_low, asked::chance_below(who, wanted_to_release * 100));
        if (ask.doubts.empty()) return;
        ask.key = fmt::format("quarantine-end:{}", fact.animal.text());
        asks_.push_back(std::move(ask));
    }

    /// Refused it was not fed; what was eaten goes on record all the same.
    void hear(const records::MealNoted& fact) {
        if (!fact.treated_prey || !places_.contains(fact.animal)) return;
        Ask ask = about(AskKind::treated_prey, fact.animal);
        ask.says = {asked::never_treated_prey(called(fact.animal))};
        ask.key = fmt::format("treated-prey:{}", fact.animal.text());
        asks_.push_back(std::move(ask));
    }

    template <class Other>
    void hear(const Other&) {}

    [[nodiscard]] std::vector<Ask> asks() && { return std::move(asks_); }

  private:
    /// Nobody takes it.
    static bool is_dead(const records::AnimalLeft& fact) {
        return fact.how == records::LeftHow::died || fact.how == records::LeftHow::put_to_sleep;
    }

    static bool is_blank(const std::string& text) {
        return text.find_first_not_of(" \t\r\n") == std::string::npos;
    }

    [[nodiscard]] Ask about(AskKind kind, const AnimalId& animal) const {
        Ask ask;
        ask.kind = kind;
        ask.fact = fact_;
        ask.animal = animal;
        ask.from = places_.at(animal);
        ask.from_danger = danger_of(*ask.from);
        return ask;
    }

    /// It takes its days without water along (safety/water.h).
    void ask_for_water(const Ask& move) {
        const auto animal = today_.animals.find(move.animal);
        const auto to = today_.enclosures.find(*move.to);
        if (animal == today_.animals.end() || animal->second.enclosure != *move.from) return;
        if (to == today_.enclosures.end() || !to->second.water_is_out) return;
        const auto limits = safety::wet_limits(knowledge_.tables);
        const auto dish =
            safety::dish_of(today_, today_.enclosures.at(*move.from), {&animal->second}, limits);
        if (!dish.is_out) return;
        Ask ask = move;
        ask.kind = AskKind::dry_move;
        const auto by = safety::back_by(dish, limits);
        const std::vector<Statement> when{by && *by > today_.day ? asked::by_then(*by) : asked::by_today()};
        ask.says = {dish.since ? asked::no_dish_since(called(ask.animal), *dish.since, called(*ask.to), when)
                               : asked::no_dish(called(ask.animal), called(*ask.to), when)};
        ask.key = fmt::format("dry-move:{}:{}-{}", ask.animal.text(), ask.from->text(), ask.to->text());
        asks_.push_back(std::move(ask));
    }

    [[nodiscard]] Danger danger_of(const EnclosureId& enclosure) const {
        const auto found = dangers_.find(enclosure);
        return found == dangers_.end() ? Danger::healthy : found->second;
    }

    [[nodiscard]] Names called(const AnimalId& animal) const { return called_in(today_.animals, animal); }
    [[nodiscard]] Names called(const EnclosureId& enclosure) const {
        return called_in(today_.enclosures, enclosure);
    }

    template <class Map, class Id>
    [[nodiscard]] static Names called_in(const Map& among, const Id& id) {
        const auto found = among.find(id);
        const bool named = found != among.end() && !found->second.name.empty();
        return {{id.text(), named ? found->second.name : id.text()}};
    }

    [[nodiscard]] const records::RoomId* room_of(const EnclosureId& enclosure) const {
        const auto found = today_.enclosures.find(enclosure);
        return found == today_.enclosures.end() ? nullptr : &found->second.room;
    }

    /// Out of quarantine in all but name: to another room, to animals that are not kept apart.
    [[nodiscard]] bool leaves_quarantine(const AnimalId& id, const EnclosureId& from,
                                         const EnclosureId& to) const {
        const auto* const from_room = room_of(from);
        const auto* const to_room = room_of(to);
        if (!is_kept_apart(id) || from_room == nullptr || to_room == nullptr || *from_room == *to_room)
            return false;
        return std::any_of(places_.begin(), places_.end(), [&](const auto& one) {
            const auto* const room = room_of(one.second);
            return one.first != id && !is_kept_apart(one.first) && room != nullptr && *room == *to_room;
        });
    }

    [[nodiscard]] bool is_lived_in(const EnclosureId& enclosure, const AnimalId& but_for) const {
        return std::any_of(places_.begin(), places_.end(),
                           [&](const auto& one) { return one.first != but_for && one.second == enclosure; });
    }

    [[nodiscard]] bool is_kept_apart(const AnimalId& id) const {
        const auto found = today_.animals.find(id);
        return found != today_.animals.end() && found->second.quarantine;
    }

    [[nodiscard]] std::vector<Tell> warning(const AnimalId& id, Danger danger) const {
        const auto quarantine = knowledge_.tables.time("quarantine");
        const auto practice = evidence::Tag::common_practice;
        std::vector<Tell> lines{
            {tell_where_from(id, danger), {}, {}},
            {asked::can_be_on_it_unseen(), practice, {}},
            {asked::keep_it_alone(static_cast<double>(units::at_least_days(quarantine.low).count())),
             quarantine.tag, std::string(quarantine.source)},
            {asked::look_every_week(), practice, {}},
            {asked::wash_after_every_visit(), practice, {}},
            {asked::burn_the_bag(), practice, {}}};
        const auto animal = today_.animals.find(id);
        if (animal != today_.animals.end()) tell_treatments(animal->second, lines);
        return lines;
    }

    [[nodiscard]] Statement tell_where_from(const AnimalId& id, Danger danger) const {
        if (danger == Danger::healthy)
            return is_kept_apart(id) ? asked::still_in_quarantine(called(id))
                                     : asked::still_watched(called(id));
        return danger == Danger::sighted ? asked::from_where_mites_were_seen(called(id))
                                         : asked::from_where_mites_may_be(called(id));
    }

    static void tell_treatments(const Animal& animal, std::vector<Tell>& lines) {
        auto given = animal.treatments;
        given.insert(given.end(), animal.exposures.begin(), animal.exposures.end());
        const auto last = std::max_element(given.begin(), given.end(),
                                           [](const auto& a, const auto& b) { return a.day < b.day; });
        if (last == given.end()) {
            lines.push_back({asked::no_treatment_on_record(), {}, {}});
            return;
        }
        const statement::Term method{"method", records::to_text(last->value.method)};
        lines.push_back({asked::last_treatment_was(method, last->day), {}, {}});
        lines.push_back({asked::ask_before_giving_more(), evidence::Tag::assumption, {}});
    }

    const Collection& today_;
    const Knowledge& knowledge_;
    const ReleaseChance& chance_;
    std::map<EnclosureId, Danger> dangers_;
    std::map<AnimalId, EnclosureId> places_;
    std::map<std::string, std::string> names_;
    std::vector<Ask> asks_;
    std::size_t fact_ = 0;
};

bool goes(const records::Fact& fact) {
    return std::holds_alternative<records::AnimalMoved>(fact) ||
           std::holds_alternative<records::AnimalLeft>(fact);
}

bool may_ask(const DatedFact& dated) {
    return std::holds_alternative<records::AnimalArrived>(dated.fact) ||
           std::holds_alternative<records::AnimalMoved>(dated.fact) ||
           std::holds_alternative<records::AnimalLeft>(dated.fact) ||
           std::holds_alternative<records::MealNoted>(dated.fact) ||
           std::holds_alternative<records::QuarantineEnded>(dated.fact);
}

Error not_acknowledged(const Ask& ask, std::size_t others) {
    std::string what = words::say_all(ask.says);
    if (!what.empty()) what.pop_back();
    if (others > 0) what += fmt::format(", and {} more to read", others);
    return {ErrorKind::conflict,
            std::move(what),
            ask.key,
            {},
            ask.needs_reason ? "wait, or record it with the reason why it ends all the same"
                             : "read what it does, and say that you know it",
            "acknowledged"};
}

/// The situation if the facts were on record.
std::shared_ptr<const Situation> with_facts(const Situation& situation, const std::vector<DatedFact>& facts) {
    Situation::Journal journal = situation.journal();
    records::FactId id = situation.entry();
    for (const DatedFact& fact : facts) journal.push_back({++id, fact.day, {}, fact.fact, fact.corrects});
    return Situation::of(std::move(journal), situation.today(), situation.knowledge());
}

/// What a correction comes to: where it leaves an animal in another place, not here, or no longer kept apart.
std::vector<records::Fact> effects_of(const Situation& situation, const DatedFact& correction) {
    const auto corrected = with_facts(situation, {correction});
    const Collection& before = situation.collection();
    const Collection& after = corrected->collection();
    const auto* const end = std::get_if<records::QuarantineEnded>(&correction.fact);
    std::vector<records::Fact> effects;
    for (const auto& [id, animal] : before.animals) {
        const auto then = after.animals.find(id);
        if (then == after.animals.end()) {
            effects.emplace_back(records::AnimalLeft{id, {}});
            continue;
        }
        if (animal.quarantine && !then->second.quarantine)
            effects.emplace_back(records::QuarantineEnded{id, end == nullptr ? "" : end->reason});
        if (animal.enclosure != then->second.enclosure)
            effects.emplace_back(records::AnimalMoved{id, then->second.enclosure});
    }
    return effects;
}

/// What may ask, with the number of the fact it comes from.
struct Heard {
    std::size_t fact;
    records::Fact says;
};

std::vector<Heard> heard_of(const Situation& situation, const std::vector<DatedFact>& facts) {
    const Day traced_from =
        situation.today() - units::at_least_days(situation.knowledge().tables.time("look_back").value);
    std::vector<Heard> heard;
    for (std::size_t i = 0; i < facts.size(); ++i) {
        if (facts[i].corrects) {
            for (records::Fact& effect : effects_of(situation, facts[i]))
                heard.push_back({i, std::move(effect)});
        } else if (may_ask(facts[i]) && !(facts[i].day < traced_from && goes(facts[i].fact))) {
            heard.push_back({i, facts[i].fact});
        }
    }
    return heard;
}

void note_knowing(records::Fact& fact, bool is_asked, const std::string& reason) {
    const auto note = [&](auto* const going) {
        if (going == nullptr) return;
        going->knowing = is_asked;
        going->knowing_reason = is_asked ? reason : std::string();
    };
    note(std::get_if<records::AnimalMoved>(&fact));
    note(std::get_if<records::AnimalLeft>(&fact));
}

/// A correction that changes nothing of what was asked about then keeps what was said then.
void keep_knowing(DatedFact& correction, const std::vector<records::Entry>& journal) {
    const auto old = std::find_if(journal.begin(), journal.end(),
                                  [&](const auto& entry) { return entry.id == *correction.corrects; });
    if (old == journal.end()) return;
    auto* const moved = std::get_if<records::AnimalMoved>(&correction.fact);
    const auto* const moved_before = std::get_if<records::AnimalMoved>(&old->fact);
    if (moved != nullptr && moved_before != nullptr && moved->animal == moved_before->animal &&
        moved->to == moved_before->to)
        *moved = *moved_before;
    auto* const left = std::get_if<records::AnimalLeft>(&correction.fact);
    const auto* const left_before = std::get_if<records::AnimalLeft>(&old->fact);
    if (left == nullptr || left_before == nullptr || left->animal != left_before->animal) return;
    left->knowing = left_before->knowing;
    left->knowing_reason = left_before->knowing_reason;
}

}  // namespace

Result<std::vector<Ask>> asked_first(const Situation& situation, const std::vector<DatedFact>& facts,
                                     const ReleaseChance& chance) {
    const auto could_ask = [](const DatedFact& fact) { return fact.corrects || may_ask(fact); };
    if (std::none_of(facts.begin(), facts.end(), could_ask)) return std::vector<Ask>{};
    const std::vector<Heard> heard = heard_of(situation, facts);
    if (heard.empty()) return std::vector<Ask>{};
    const auto overview = overview_of(situation);
    if (!overview) return fail(overview.error());
    Asker asker(situation.collection(), *overview, situation.knowledge(), chance);
    for (const Heard& one : heard) {
        asker.turn_to(one.fact);
        std::visit([&](const auto& fact) { asker.hear(fact); }, one.says);
    }
    return std::move(asker).asks();
}

Result<std::vector<records::FactId>> record_knowingly(Keeper& keeper, std::vector<DatedFact> facts,
                                                      const std::vector<std::string>& acknowledged,
                                                      const ReleaseChance& chance, const Now& now,
                                                      const std::string& reason) {
    return keeper.alone([&]() -> Result<std::vector<records::FactId>> {
        const auto situation = keeper.situation(now.today);
        if (!situation) return fail(situation.error());
        for (DatedFact& fact : facts) {
            note_knowing(fact.fact, false, {});
            if (fact.corrects) keep_knowing(fact, (*situation)->journal());
        }
        if (const auto ok = keeper.would_accept(facts, now); !ok) return fail(ok.error());
        auto asks = asked_first(**situation, facts, chance);
        if (!asks) return fail(asks.error());
        for (const Ask& ask : *asks) note_knowing(facts[ask.fact].fact, true, reason);
        std::erase_if(*asks, [&](const Ask& ask) {
            return !ask.needs_reason &&
                   std::find(acknowledged.begin(), acknowledged.end(), ask.key) != acknowledged.end();
        });
        if (!asks->empty()) return fail(not_acknowledged(asks->front(), asks->size() - 1));
        return keeper.record_all(facts, now);
    });
}

Result<Consequence> consequence_of(const Situation& situation, const std::vector<DatedFact>& facts,
                                   const PlanOptions& options) {
    if (const auto ok = check_together(situation.journal(), facts, {situation.today(), {}}); !ok)
        return fail(ok.error());
    struct Chances {
        std::optional<base::Band> clear, course;
    };
    const auto chances = [&](const Situation& then, double begin) -> Result<Chances> {
        Chances found;
        ClearanceOptions looking;
        looking.draws = options.draws;
        looking.seed = options.seed;
        looking.progress = part_of(options.progress, begin, begin + 0.25);
        const auto clear = sure_of_today(then, looking);
        if (!clear && clear.error().kind == ErrorKind::not_found) return found;
        if (!clear) return fail(clear.error());
        found.clear = *clear;
        if (!then.collection().plan) return found;
        PlanOptions scoring = options;
        scoring.progress = part_of(options.progress, begin + 0.25, begin + 0.5);
        const auto course = rescore(then, scoring);
        if (!course) return fail(course.error());
        found.course = course->clear;
        return found;
    };
    const auto before = chances(situation, 0);
    if (!before) return fail(before.error());
    const auto after = chances(*with_facts(situation, facts), 0.5);
    if (!after) return fail(after.error());
    return Consequence{before->clear, after->clear, before->course, after->course};
}

}  // namespace mitefall::service
