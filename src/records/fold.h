#pragma once

#include <map>
#include <span>
#include <vector>

#include "records/collection.h"

namespace mitefall::records {

/// The collection while the journal is folded, with what the finished collection does not keep.
struct Fold {
    Collection collection;
    std::map<AnimalId, Animal> departed;  ///< as they left; an animal that comes back keeps its history
    std::map<AnimalId, units::Day> left_on;
    std::map<RoomId, units::Day> rooms_begin;  ///< first day on record in the whole journal, for clear errors
    std::map<EnclosureId, units::Day> enclosures_begin;
    std::map<AnimalId, units::Day> animals_begin;
};

/// The entry a fold stopped at, and why.
struct Contradiction {
    const Entry* entry = nullptr;
    base::Error error;
};

/// Which of the entries in force, in order, contradict those before them. Each is left out and the fold goes
/// on without it.
[[nodiscard]] std::vector<Contradiction> contradictions_in(std::span<const Entry* const> entries);

/// Folds entries already in force, in order, up to the end of `until`.
[[nodiscard]] tl::expected<Collection, Contradiction> try_fold(std::span<const Entry* const> entries,
                                                               units::Day until);
/// The same at the end of each of `days`, in one walk. `days`: ascending.
[[nodiscard]] tl::expected<std::vector<Collection>, Contradiction> try_folds(
    std::span<const Entry* const> entries, std::span<const units::Day> days);

}  // namespace mitefall::records
