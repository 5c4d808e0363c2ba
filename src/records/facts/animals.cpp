#include <fmt/format.h>

#include <algorithm>

#include "records/apply.h"
#include "records/limits.h"
#include "units/text.h"

namespace mitefall::records {
namespace {

/// Finds the animal and, where it is there, lets `change` act on it.
template <class Change>
Applied change_animal(const AnimalId& id, const Effect& effect, Change change) {
    const auto animal = find_animal(id, effect);
    if (!animal) return base::fail(animal.error());
    change(**animal);
    return {};
}

void end_stay(Animal& animal, units::Day day) {
    if (!animal.stays.empty() && !animal.stays.back().until) animal.stays.back().until = day;
}

/// What was done there that day was done around it, in whichever order the two were told.
void begin_stay(Animal& animal, const Enclosure& place, const Effect& effect) {
    end_stay(animal, effect.day);
    animal.enclosure = place.id;
    animal.stays.push_back({place.id, effect.day, effect.entry});
    for (const DatedValue<Treated>& done : place.treatments) {
        if (done.day == effect.day && is_around_animals(done.value)) note_exposure(animal, done);
    }
}

base::Error already_here(const Animal& animal) {
    return {base::ErrorKind::already_exists,
            "there is already an animal of this name",
            animal.id.text(),
            "it has been here since " + units::show_day(animal.arrived),
            "choose another name, or record a move instead of an arrival",
            {}};
}

base::Error not_present(const ConditionNoted& fact) {
    return {base::ErrorKind::conflict,
            fmt::format("{} is not on record as {}", fact.animal.text(), to_text(fact.condition)),
            fact.agent,
            "a condition ends only after it began, with the same agent",
            "check the condition, the agent and the day",
            {}};
}

base::Error not_in_quarantine(const AnimalId& animal) {
    return {base::ErrorKind::conflict,
            "the animal is not in quarantine",
            animal.text(),
            "a quarantine begins with the arrival and ends once",
            "check the name and the day",
            {}};
}

base::Error sign_not_there(const AnimalId& animal, Sign sign) {
    return {base::ErrorKind::conflict,
            fmt::format("{} does not show that sign", animal.text()),
            std::string(to_text(sign)),
            "a sign is gone only after it was seen",
            "check the sign, the animal and the day",
            {}};
}

base::Error no_death(const AnimalId& animal, base::ErrorKind kind) {
    return {kind,
            "there is no death of that animal that waits for an answer",
            animal.text(),
            "an animal on record as died, answered once",
            "check the name and the day",
            {}};
}

bool has(const std::vector<AskedState>& list, AskedState state) {
    return std::find(list.begin(), list.end(), state) != list.end();
}

void settle(Animal& animal, const std::vector<AskedState>& told) {
    std::erase_if(animal.unknown, [&](const auto& open) { return has(told, open.value); });
}

/// What a condition tells of what is asked.
std::vector<AskedState> told_by(Condition condition) {
    if (condition == Condition::gravid) return {AskedState::gravid};
    if (condition == Condition::neonate) return {AskedState::newborn};
    return {};
}

/// Of those handled in one session.
constexpr std::size_t longest_session = 500;

Applied check_length(const Handled& fact) {
    const std::size_t least = fact.shared_bag ? 2 : 1;
    if (fact.animals.size() >= least && fact.animals.size() <= longest_session) return {};
    return refuse(fact.shared_bag ? "a shared bag needs at least two animals"
                                  : "the list of animals handled does not do",
                  fmt::format("{} animals", fact.animals.size()),
                  fmt::format("{} to {}", least, longest_session),
                  "name the animals in the order in which they were handled");
}

/// A reason in words only of what was warned of.
Applied check_knowing(bool knowing, const std::string& reason) {
    if (knowing || reason.empty()) return check_text("reason", reason);
    return refuse("a reason for going on all the same, and no warning", reason, "none without a warning",
                  "leave it out");
}

}  // namespace

Applied AnimalArrived::check(const AnimalArrived& fact) {
    return first_failure({check_new_name("an animal", fact.animal.text()),
                          check_label("animal's name", fact.name), check_label("taxon", fact.taxon),
                          check_label("origin", fact.origin)});
}

Applied AnimalArrived::check_amounts(const AnimalArrived& fact) {
    return check_new_name("an animal", fact.animal.text());
}

Applied AnimalArrived::apply(const AnimalArrived& fact, const Effect& effect) {
    auto& animals = effect.collection().animals;
    if (const auto here = animals.find(fact.animal); here != animals.end())
        return base::fail(already_here(here->second));
    const auto place = find_enclosure(fact.enclosure, effect);
    if (!place) return base::fail(place.error());
    Animal animal;
    if (auto before = effect.fold.departed.extract(fact.animal)) animal = std::move(before.mapped());
    effect.fold.left_on.erase(fact.animal);
    animal.id = fact.animal;
    animal.name = on_one_line(fact.name);
    animal.taxon = on_one_line(fact.taxon);
    animal.origin = on_one_line(fact.origin);
    animal.arrived = effect.day;
    begin_stay(animal, **place, effect);
    animal.quarantine = fact.quarantine;
    animals.emplace(fact.animal, std::move(animal));
    return {};
}

Applied AnimalMoved::check(const AnimalMoved& fact) {
    return check_knowing(fact.knowing, fact.knowing_reason);
}

Applied AnimalMoved::apply(const AnimalMoved& fact, const Effect& effect) {
    const auto place = find_enclosure(fact.to, effect);
    if (!place) return base::fail(place.error());
    return change_animal(fact.animal, effect, [&](Animal& mover) { begin_stay(mover, **place, effect); });
}

Applied AnimalLeft::check(const AnimalLeft& fact) {
    return first_failure(
        {check_text("reason", fact.reason), check_knowing(fact.knowing, fact.knowing_reason)});
}

Applied AnimalLeft::apply(const AnimalLeft& fact, const Effect& effect) {
    const auto animal = find_animal(fact.animal, effect);
    if (!animal) return base::fail(animal.error());
    end_stay(**animal, effect.day);
    if (fact.how == LeftHow::died) effect.collection().deaths.push_back({effect.dated(**animal), {}});
    effect.fold.departed.insert(effect.collection().animals.extract(fact.animal));
    effect.fold.left_on.emplace(fact.animal, effect.day);
    return {};
}

Applied Handled::check(const Handled& fact) { return check_length(fact); }

Applied Handled::apply(const Handled& fact, const Effect& effect) {
    for (const AnimalId& id : fact.animals) {
        if (const auto animal = find_animal(id, effect); !animal) return base::fail(animal.error());
    }
    return {};
}

Applied Weighed::check(const Weighed& fact) { return check_mass(fact.mass); }

Applied Weighed::apply(const Weighed& fact, const Effect& effect) {
    return change_animal(fact.animal, effect, [&](Animal& of) {
        of.weight = effect.dated(fact.mass);
        of.weighings.push_back(*of.weight);
    });
}

Applied ShedSeen::apply(const ShedSeen& fact, const Effect& effect) {
    return change_animal(fact.animal, effect, [&](Animal& of) {
        const bool goes_on = of.shed && of.shed->value == ShedState::cloudy;
        if (fact.state == ShedState::cloudy && !goes_on) of.cloudy_since = effect.day;
        of.shed = effect.dated(fact.state);
        settle(of, {AskedState::shed});
    });
}

Applied ConditionNoted::check(const ConditionNoted& fact) {
    return first_failure({check_label("agent", fact.agent), check_text("note", fact.note)});
}

Applied ConditionNoted::apply(const ConditionNoted& fact, const Effect& effect) {
    const auto animal = find_animal(fact.animal, effect);
    if (!animal) return base::fail(animal.error());
    const auto erased = std::erase_if((*animal)->conditions, [&](const DatedValue<ConditionNoted>& noted) {
        return noted.value.condition == fact.condition && noted.value.agent == fact.agent;
    });
    if (fact.present) {
        (*animal)->conditions.push_back(effect.dated(fact));
        settle(**animal, told_by(fact.condition));
    } else if (erased == 0) {
        return base::fail(not_present(fact));
    }
    return {};
}

Applied StateAsked::check(const StateAsked& fact) {
    std::vector<AskedState> all = fact.no;
    all.insert(all.end(), fact.unknown.begin(), fact.unknown.end());
    if (!all.empty() && !has_repeats(all)) return {};
    return refuse(all.empty() ? "nothing was asked" : "a state is named twice", fact.animal.text(),
                  "each state once, as \"no\" or as unknown", "name each state once");
}

Applied StateAsked::apply(const StateAsked& fact, const Effect& effect) {
    return change_animal(fact.animal, effect, [&](Animal& of) {
        settle(of, fact.no);
        settle(of, fact.unknown);
        for (const AskedState state : fact.unknown) of.unknown.push_back(effect.dated(state));
    });
}

Applied SignsNoted::check(const SignsNoted& fact) {
    std::vector<Sign> all = fact.seen;
    all.insert(all.end(), fact.gone.begin(), fact.gone.end());
    if (!has_repeats(all)) return {};
    return refuse("a sign is named twice", fact.animal.text(), "each sign once, as seen or as gone",
                  "name each sign once");
}

Applied SignsNoted::apply(const SignsNoted& fact, const Effect& effect) {
    const auto animal = find_animal(fact.animal, effect);
    if (!animal) return base::fail(animal.error());
    auto& signs = (*animal)->signs;
    const auto is_there = [&](Sign sign) {
        return std::any_of(signs.begin(), signs.end(), [&](const auto& one) { return one.value == sign; });
    };
    for (const Sign sign : fact.gone) {
        if (!is_there(sign)) return base::fail(sign_not_there(fact.animal, sign));
    }
    const auto is_told = [&](const DatedValue<Sign>& one) {
        const auto in = [&](const std::vector<Sign>& list) {
            return std::find(list.begin(), list.end(), one.value) != list.end();
        };
        return in(fact.gone) || in(fact.seen);
    };
    std::erase_if(signs, is_told);
    for (const Sign sign : fact.seen) signs.push_back(effect.dated(sign));
    (*animal)->asked_for_signs = effect.day;
    return {};
}

Applied DeathAnswered::check(const DeathAnswered& fact) { return check_needed_text("why", fact.why); }

Applied DeathAnswered::apply(const DeathAnswered& fact, const Effect& effect) {
    auto& deaths = effect.collection().deaths;
    const auto is_of = [&](const Death& one) { return one.died.value.id == fact.animal; };
    if (std::none_of(deaths.begin(), deaths.end(), is_of))
        return base::fail(no_death(fact.animal, base::ErrorKind::not_found));
    const auto death = std::find_if(deaths.begin(), deaths.end(),
                                    [&](const Death& one) { return is_of(one) && !one.answered; });
    if (death == deaths.end()) return base::fail(no_death(fact.animal, base::ErrorKind::conflict));
    death->answered = effect.dated(fact);
    return {};
}

Applied QuarantineEnded::check(const QuarantineEnded& fact) { return check_text("reason", fact.reason); }

Applied QuarantineEnded::apply(const QuarantineEnded& fact, const Effect& effect) {
    const auto animal = find_animal(fact.animal, effect);
    if (!animal) return base::fail(animal.error());
    if (!(*animal)->quarantine) return base::fail(not_in_quarantine(fact.animal));
    (*animal)->quarantine = false;
    return {};
}

}  // namespace mitefall::records
