#pragma once

#include <map>
#include <optional>
#include <span>
#include <vector>

#include "records/facts.h"

// Where animals were, read from the journal.
namespace mitefall::records {

/// One animal in one enclosure, from the day it came to the day it went; still there if `until` is empty.
struct Stay {
    AnimalId animal;
    EnclosureId enclosure;
    units::Day from;
    std::optional<units::Day> until;
    friend bool operator==(const Stay&, const Stay&) = default;
};

/// Follows arrivals, moves and departures entry by entry, for those who need the order within a day.
class Whereabouts {
  public:
    /// Entries must come in the order of `in_force`.
    void follow(const Fact& fact);
    /// Empty where the animal is not in the collection.
    [[nodiscard]] std::optional<EnclosureId> of(const AnimalId& animal) const;

  private:
    std::map<AnimalId, EnclosureId> places_;
};

/// The enclosure the animal was in at the end of `day`.
[[nodiscard]] std::optional<EnclosureId> where_was(std::span<const Entry> journal, const AnimalId& animal,
                                                   units::Day day);

/// The first day on record: that is when the book was opened, so what was entered on it was there already.
[[nodiscard]] std::optional<units::Day> first_day(std::span<const Entry> journal);

/// Every stay, in the order in which they began.
[[nodiscard]] std::vector<Stay> stays(std::span<const Entry> journal);

/// Stays in one enclosure that touch the days from `from` to `to`, both included.
[[nodiscard]] std::vector<Stay> stays_in(std::span<const Entry> journal, const EnclosureId& enclosure,
                                         units::Day from, units::Day to);

}  // namespace mitefall::records
