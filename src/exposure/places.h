#pragma once

#include <unordered_map>
#include <vector>

#include "records/collection.h"

namespace mitefall::exposure {

/// The enclosures and rooms of a collection, numbered in the order of their names, so that the search works
/// on vectors. Days are counted from the first day looked at.
struct Places {
    std::vector<const records::Enclosure*> enclosures;
    std::vector<const records::Room*> rooms;
    std::vector<std::size_t> room_of;                     ///< enclosure -> room
    std::vector<std::vector<std::size_t>> enclosures_in;  ///< room -> enclosures
    std::vector<std::vector<std::size_t>> adjoining;      ///< room -> rooms
    std::vector<int> begin;  ///< enclosure -> first day of its being there, at least 0
    std::unordered_map<records::EnclosureId, std::size_t> index;

    /// Points into `collection`.
    Places(const records::Collection& collection, std::span<const records::Entry> journal, units::Day from);
};

}  // namespace mitefall::exposure
