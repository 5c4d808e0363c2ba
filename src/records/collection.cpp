#include "records/collection.h"

#include <fmt/format.h>

#include "base/contract.h"
#include "records/corrections.h"
#include "records/fold.h"
#include "records/set_aside.h"

namespace mitefall::records {

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
    auto folded = try_fold(pick_in_force(journal), day);
    if (!folded) {
        const Contradiction& fault = folded.error();
        throw base::ContractViolation(fmt::format("contract broken: entry {} was never accepted: {}",
                                                  fault.entry->id, fault.error.message()));
    }
    folded->first_told = first_told(journal);
    for (const Entry& entry : journal) {
        if (entry.set_aside && bears_on_treatment(entry.fact)) folded->unsettled.push_back(entry.id);
    }
    return std::move(*folded);
}

}  // namespace mitefall::records
