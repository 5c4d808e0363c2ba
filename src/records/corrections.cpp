#include "records/corrections.h"

#include <algorithm>
#include <tuple>
#include <unordered_map>

#include "records/collection.h"

namespace mitefall::records {
namespace {

struct Placed {
    const Entry* entry = nullptr;
    FactId place = 0;  ///< number of the first entry of its chain of corrections
};

using Corrected = std::unordered_map<FactId, FactId>;  ///< entry -> the one that replaces it

Corrected find_corrected(std::span<const Entry> journal) {
    Corrected corrected;
    for (const Entry& entry : journal) {
        if (entry.corrects && !entry.set_aside) corrected.emplace(*entry.corrects, entry.id);
    }
    return corrected;
}

/// An entry corrects only an earlier one, so one pass in order of numbers finds the head of every chain.
std::unordered_map<FactId, FactId> find_places(std::span<const Entry> journal) {
    std::vector<const Entry*> corrections;
    for (const Entry& entry : journal) {
        if (entry.corrects && !entry.set_aside) corrections.push_back(&entry);
    }
    std::sort(corrections.begin(), corrections.end(), [](auto* a, auto* b) { return a->id < b->id; });
    std::unordered_map<FactId, FactId> places;
    for (const Entry* const entry : corrections) {
        const auto head = places.find(*entry->corrects);
        places[entry->id] = head == places.end() ? *entry->corrects : head->second;
    }
    return places;
}

}  // namespace

std::vector<const Entry*> pick_in_force(std::span<const Entry> journal) {
    const Corrected corrected = find_corrected(journal);
    const auto places = find_places(journal);
    std::vector<Placed> kept;
    for (const Entry& entry : journal) {
        const bool states = !entry.set_aside && !std::holds_alternative<Withdrawn>(entry.fact);
        if (!states || corrected.contains(entry.id)) continue;
        const auto place = places.find(entry.id);
        kept.push_back({&entry, place == places.end() ? entry.id : place->second});
    }
    std::sort(kept.begin(), kept.end(), [](const Placed& a, const Placed& b) {
        return std::tie(a.entry->day, a.place, a.entry->id) < std::tie(b.entry->day, b.place, b.entry->id);
    });
    std::vector<const Entry*> picked;
    picked.reserve(kept.size());
    for (const Placed& placed : kept) picked.push_back(placed.entry);
    return picked;
}

std::map<FactId, FactId> first_told(std::span<const Entry> journal) {
    const auto places = find_places(journal);
    return {places.begin(), places.end()};
}

const Entry* corrected_by(std::span<const Entry> journal, FactId entry) {
    const auto at = std::find_if(journal.begin(), journal.end(), [&](const Entry& later) {
        return later.corrects == entry && !later.set_aside;
    });
    return at == journal.end() ? nullptr : &*at;
}

std::vector<Entry> in_force(std::span<const Entry> journal) {
    std::vector<Entry> entries;
    for (const Entry* const entry : pick_in_force(journal)) entries.push_back(*entry);
    return entries;
}

}  // namespace mitefall::records
