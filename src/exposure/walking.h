#pragma once

#include <vector>

#include "evidence/tables.h"
#include "exposure/places.h"

namespace mitefall::exposure {

/// Mites that walk: out of an enclosure into its room, perhaps on into other rooms, and into some enclosure
/// there.
class Walking {
  public:
    Walking(const Places& places, const evidence::Tables& tables);

    /// Mites expected to walk per day from one given infested enclosure of room `from` into one given
    /// enclosure of room `to`. Zero where no chain of adjoining rooms leads there.
    [[nodiscard]] double mites_per_day(std::size_t from, std::size_t to) const { return rates_[from][to]; }

    /// Chance that one mite let loose in room `from` ends up in one given enclosure of room `to`.
    [[nodiscard]] double into_each(std::size_t from, std::size_t to) const { return into_each_[from][to]; }

    /// Rooms that can be reached on foot from `from`, itself included.
    [[nodiscard]] const std::vector<std::size_t>& rooms_reached(std::size_t from) const {
        return reached_[from];
    }

  private:
    std::vector<std::vector<double>> rates_;
    std::vector<std::vector<double>> into_each_;
    std::vector<std::vector<std::size_t>> reached_;
};

}  // namespace mitefall::exposure
