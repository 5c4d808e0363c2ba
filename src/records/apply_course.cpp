#include <algorithm>

#include "base/contract.h"
#include "records/apply.h"

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

Applied find_all_places(const PlanAdopted& fact, const Effect& effect) {
    for (const EnclosureId& id : fact.enclosures) {
        if (const auto found = find_enclosure(id, effect); !found) return base::fail(found.error());
    }
    for (const RoomId& id : fact.rooms) {
        if (const auto found = find_room(id, effect); !found) return base::fail(found.error());
    }
    return {};
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

Applied apply(const Sighted& fact, const Effect& effect) {
    const auto place = find_enclosure(fact.enclosure, effect);
    if (!place) return base::fail(place.error());
    (*place)->looked_at = effect.day;
    effect.collection().sightings.push_back(effect.dated(fact));
    return {};
}

Applied apply(const Checked& fact, const Effect& effect) {
    const auto place = find_enclosure(fact.enclosure, effect);
    if (!place) return base::fail(place.error());
    (*place)->looked_at = effect.day;
    if (fact.count == SeenCount::none) return {};
    const SeenWhere where = fact.where ? *fact.where : where_seen(fact.method);
    return apply(Sighted{fact.enclosure, fact.count, where}, effect);
}

Applied apply(const Treated& fact, const Effect& effect) {
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
    if (row_of(fact.method).paper == Paper::renewed) (*place)->substrate_changed = effect.day;
    if (is_around_animals(fact)) note_exposures(fact, effect);
    return {};
}

Applied apply(const RoomTreated& fact, const Effect& effect) {
    if (const auto place = find_room(fact.room, effect); !place) return base::fail(place.error());
    return {};
}

Applied apply(const StrengthAcknowledged& fact, const Effect& effect) {
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

Applied apply(const PlanAdopted& fact, const Effect& effect) {
    if (auto known = find_all_places(fact, effect); !known) return known;
    Collection& collection = effect.collection();
    collection.course_began = fact.continues ? collection.course_since() : std::nullopt;
    collection.plan = effect.dated(fact);
    return {};
}

Applied apply(const TaskDone& fact, const Effect& effect) {
    effect.collection().skipped.erase(fact.task);
    effect.collection().done.insert_or_assign(fact.task, effect.dated(fact));
    return {};
}

Applied apply(const TaskSkipped& fact, const Effect& effect) {
    effect.collection().done.erase(fact.task);
    effect.collection().skipped.insert_or_assign(fact.task, effect.dated(fact));
    return {};
}

// A withdrawal acts through the entry it corrects; it is never in force itself.
Applied apply(const Withdrawn&, const Effect&) { return {}; }

}  // namespace mitefall::records
