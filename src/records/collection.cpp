#include "records/collection.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.h"
#include "records/corrections.h"
#include "records/fold.h"
#include "records/set_aside.h"

namespace mitefall::records {

bool Collection::asks_for_signs(const Animal& animal) const {
    if (animal.asked_for_signs == day) return false;
    const auto place = enclosures.find(animal.enclosure);
    const bool is_looked_at = place != enclosures.end() && place->second.looked_at == day;
    return is_looked_at ||
           std::any_of(animal.conditions.begin(), animal.conditions.end(), [&](const auto& noted) {
               return noted.value.condition == Condition::reacted && noted.day == day;
           });
}

std::vector<const Animal*> Collection::animals_in(const EnclosureId& enclosure) const {
    std::vector<const Animal*> found;
    for (const auto& [id, animal] : animals) {
        if (animal.enclosure == enclosure) found.push_back(&animal);
    }
    return found;
}

std::vector<const Enclosure*> Collection::enclosures_in(const RoomId& room) const {
    std::vector<const Enclosure*> found;
    for (const auto& [id, enclosure] : enclosures) {
        if (enclosure.room == room) found.push_back(&enclosure);
    }
    return found;
}

Collection collection_on(std::span<const Entry> journal, units::Day day) {
    return std::move(collections_on(journal, {&day, 1}).front());
}

std::vector<Collection> collections_on(std::span<const Entry> journal, std::span<const units::Day> days) {
    auto folded = try_folds(pick_in_force(journal), days);
    if (!folded) {
        const Contradiction& fault = folded.error();
        throw base::ContractViolation(fmt::format("contract broken: entry {} was never accepted: {}",
                                                  fault.entry->id, fault.error.message()));
    }
    const FirstTold told = first_told(journal);
    std::vector<FactId> unsettled;
    for (const Entry& entry : journal) {
        if (entry.set_aside && bears_on_treatment(entry.fact)) unsettled.push_back(entry.id);
    }
    for (Collection& collection : *folded) {
        collection.first_told = told;
        collection.unsettled = unsettled;
    }
    return std::move(*folded);
}

}  // namespace mitefall::records
