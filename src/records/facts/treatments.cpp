#include <fmt/format.h>

#include <algorithm>

#include "records/apply.h"
#include "records/limits.h"
#include "units/text.h"

namespace mitefall::records {
namespace {

SeenWhere where_seen(CheckMethod method) {
    switch (method) {
        case CheckMethod::look_over:
        case CheckMethod::wipe: return SeenWhere::on_animal;
        case CheckMethod::soak: return SeenWhere::in_water;
        case CheckMethod::paper_trap: return SeenWhere::on_paper;
    }
    throw base::ContractViolation("contract broken: no such way to check");
}

base::Error elsewhere(const Animal& animal, const Treated& fact) {
    return {base::ErrorKind::conflict,
            "the animal was not in this enclosure",
            animal.id.text() + " in " + fact.enclosure.text(),
            "it was in " + animal.enclosure.text(),
            "name the enclosure the animal was in, or record its move first",
            {}};
}

bool lived_there(const Animal& animal, const EnclosureId& enclosure, units::Day day) {
    return std::any_of(animal.stays.begin(), animal.stays.end(), [&](const Residence& stay) {
        return stay.enclosure == enclosure && stay.from <= day && stay.until.value_or(day) >= day;
    });
}

/// The enclosure was treated, with or around the animals that lived in it that day, before or after.
void note_exposures(const Treated& fact, const Effect& effect) {
    for (auto* const animals : {&effect.collection().animals, &effect.fold.departed}) {
        for (auto& [id, animal] : *animals) {
            if (lived_there(animal, fact.enclosure, effect.day)) note_exposure(animal, effect.dated(fact));
        }
    }
}

/// Of reading traps, in days. A month is usual; the ends catch slips.
constexpr int shortest_routine = 7, longest_routine = 60;

Applied check_number_of_treatments(int treatments) {
    constexpr int most = 100;
    if (treatments >= 0 && treatments <= most) return {};
    return refuse("the number of treatments is not possible", std::to_string(treatments),
                  "1 to " + std::to_string(most), "leave it out where the direction names none");
}

}  // namespace

bool is_around_animals(const Treated& fact) {
    return fact.animals.empty() || row_of(fact.method).meets == Meets::lies_on;
}

void note_exposure(Animal& animal, const DatedValue<Treated>& around) {
    auto& all = animal.exposures;
    const auto key = [](const DatedValue<Treated>& one) { return std::pair(one.day, one.entry); };
    const auto place =
        std::find_if(all.begin(), all.end(), [&](const auto& one) { return key(one) >= key(around); });
    if (place == all.end() || place->entry != around.entry) all.insert(place, around);
}

Applied Sighted::check(const Sighted& fact) {
    if (fact.count != SeenCount::none) return {};
    return refuse("a sighting without a mite", std::string(to_text(fact.count)), "at least 1",
                  "record a check with nothing found instead");
}

Applied Sighted::apply(const Sighted& fact, const Effect& effect) {
    const auto place = find_enclosure(fact.enclosure, effect);
    if (!place) return base::fail(place.error());
    (*place)->looked_at = effect.day;
    effect.collection().sightings.push_back(effect.dated(fact));
    return {};
}

Applied Checked::check(const Checked& fact) {
    if (!fact.where || fact.count != SeenCount::none) return {};
    return refuse("a place where mites were seen, and no mite", std::string(to_text(*fact.where)),
                  "a place only with a number", "say how many were seen, or leave the place out");
}

Applied Checked::apply(const Checked& fact, const Effect& effect) {
    const auto place = find_enclosure(fact.enclosure, effect);
    if (!place) return base::fail(place.error());
    (*place)->looked_at = effect.day;
    if (fact.method == CheckMethod::paper_trap) (*place)->traps_read.push_back(effect.day);
    if (fact.count == SeenCount::none) return {};
    const SeenWhere where = fact.where ? *fact.where : where_seen(fact.method);
    return Sighted::apply({fact.enclosure, fact.count, where}, effect);
}

Applied TrapRoutine::check(const TrapRoutine& fact) {
    if (fact.every_days == 0 || (fact.every_days >= shortest_routine && fact.every_days <= longest_routine))
        return {};
    return refuse("traps are not read so often", fmt::format("every {} days", fact.every_days),
                  fmt::format("{} to {} days; 0: no longer", shortest_routine, longest_routine),
                  "choose a number of days; a month is usual");
}

Applied TrapRoutine::apply(const TrapRoutine& fact, const Effect& effect) {
    auto& routine = effect.collection().trap_routine;
    if (fact.every_days == 0)
        routine.reset();
    else
        routine = effect.dated(fact);
    return {};
}

Applied Treated::check(const Treated& fact) {
    const Target target = row_of(fact.method).target;
    // Without their names an application would be missing from the animals' count.
    if (fact.animals.empty() && target == Target::animal) {
        return refuse("no animal is named", std::string(to_text(fact.method)),
                      "this is given to animals, and each one's treatments are counted",
                      "name the animals it was given to");
    }
    if (target == Target::room) {
        return refuse("treating a room is not something done to an enclosure", fact.enclosure.text(),
                      "floor, racks and walls of a room",
                      "record it for the room: \"record room-treatment ROOM\"");
    }
    if (has_repeats(fact.animals)) {
        return refuse("an animal is named twice", "", "each animal once", "leave the second out");
    }
    return check_strength(fact.strength);
}

Applied Treated::check_amounts(const Treated& fact) {
    if (has_repeats(fact.animals)) return check(fact);
    return check_strength(fact.strength);
}

Applied Treated::apply(const Treated& fact, const Effect& effect) {
    const auto place = find_enclosure(fact.enclosure, effect);
    if (!place) return base::fail(place.error());
    std::vector<Animal*> treated;
    for (const AnimalId& id : fact.animals) {
        const auto animal = find_animal(id, effect);
        if (!animal) return base::fail(animal.error());
        if ((*animal)->enclosure != fact.enclosure) return base::fail(elsewhere(**animal, fact));
        treated.push_back(*animal);
    }
    for (Animal* const animal : treated) animal->treatments.push_back(effect.dated(fact));
    (*place)->treatments.push_back(effect.dated(fact));
    if (row_of(fact.method).paper == Paper::renewed) {
        (*place)->substrate = Substrate::paper;
        (*place)->substrate_changed = effect.day;
    }
    if (is_around_animals(fact)) note_exposures(fact, effect);
    return {};
}

Applied RoomTreated::check(const RoomTreated& fact) { return check_strength(fact.strength); }

Applied RoomTreated::apply(const RoomTreated& fact, const Effect& effect) {
    if (const auto place = find_room(fact.room, effect); !place) return base::fail(place.error());
    return {};
}

Applied VetDirection::check(const VetDirection& fact) {
    return first_failure({check_needed_text("veterinarian's name", fact.who),
                          check_label("veterinarian's name", fact.who),
                          check_needed_text("direction", fact.text), check_strength(fact.strength),
                          check_number_of_treatments(fact.treatments)});
}

Applied VetDirection::check_amounts(const VetDirection& fact) {
    return first_failure({check_strength(fact.strength), check_number_of_treatments(fact.treatments)});
}

Applied VetDirection::apply(const VetDirection& fact, const Effect& effect) {
    const auto animal = find_animal(fact.animal, effect);
    if (!animal) return base::fail(animal.error());
    (*animal)->directions.push_back(effect.dated(fact));
    return {};
}

Applied VeterinarianNamed::check(const VeterinarianNamed& fact) {
    return first_failure({check_needed_text("veterinarian's name", fact.who),
                          check_label("veterinarian's name", fact.who), check_telephone(fact.telephone)});
}

Applied VeterinarianNamed::apply(const VeterinarianNamed& fact, const Effect& effect) {
    effect.collection().veterinarian = effect.dated(fact);
    return {};
}

Applied StrengthAcknowledged::check(const StrengthAcknowledged& fact) {
    if (fact.strength == units::Strength{}) {
        return refuse("there is no strength to acknowledge", "0 mg/L", "above 0",
                      "give the strength of the mix");
    }
    return check_strength(fact.strength);
}

Applied StrengthAcknowledged::check_amounts(const StrengthAcknowledged& fact) {
    return check_strength(fact.strength);
}

Applied StrengthAcknowledged::apply(const StrengthAcknowledged& fact, const Effect& effect) {
    if (!fact.animal.empty()) {
        const auto animal = find_animal(fact.animal, effect);
        if (!animal) return base::fail(animal.error());
        (*animal)->acknowledged.push_back(effect.dated(fact.strength));
        return {};
    }
    auto& highest = effect.collection().acknowledged;
    highest = std::max(highest.value_or(fact.strength), fact.strength);
    return {};
}

}  // namespace mitefall::records
