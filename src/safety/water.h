#pragma once

#include <optional>
#include <vector>

#include "evidence/tables.h"
#include "records/collection.h"
#include "safety/survey.h"
#include "units/day.h"

// Who has had no water dish, and since when. A dish belongs to an enclosure; thirst belongs to an animal, and
// goes with it from one enclosure to the next. Where nobody lives, the enclosure itself stands for them.
namespace mitefall::safety {

/// Those who live in one enclosure; may be empty.
using Inside = std::vector<const records::Animal*>;
[[nodiscard]] Inside inside_of(const records::Collection& collection, const Survey& survey,
                               const records::EnclosureId& enclosure);

/// From the rules table.
struct WetLimits {
    units::Days dish_out{};  ///< longest spell without the dish
    units::Days damp{};      ///< of one course, with wet paper
    units::Days dry{};       ///< of one course, without the dish
    units::Days course{};    ///< days this close to each other belong to one course
};
[[nodiscard]] WetLimits wet_limits(const evidence::Tables& tables);

/// The dish of an enclosure as those who live there know it, at the end of the collection's day.
struct Dish {
    bool is_out = false;
    bool is_for_somebody = false;     ///< somebody lives there; else nothing is late
    std::optional<units::Day> since;  ///< while out: the first of the days on end without one, of whoever
                                      ///< has had none for longest; empty: nobody knows
    std::optional<records::DrySpell> last;  ///< the latest spell of theirs that is over, the longest of those
};
[[nodiscard]] Dish dish_of(const records::Collection& collection, const records::Enclosure& enclosure,
                           const Inside& inside, const WetLimits& limits);

/// The last day on which it may be put back; empty where it is in or nobody knows since when it is out.
[[nodiscard]] std::optional<units::Day> back_by(const Dish& dish, const WetLimits& limits);

/// Whether it should be back by now: somebody has had none for the longest time allowed, or nobody knows.
[[nodiscard]] bool is_due(const Dish& dish, units::Day today, const WetLimits& limits);

/// Whether the last day on which it might be put back is over, or nobody knows.
[[nodiscard]] bool is_overdue(const Dish& dish, units::Day today, const WetLimits& limits);

/// Whether the spell that ended that day was longer than it may be.
[[nodiscard]] bool was_overdue(const Dish& dish, units::Day back, const WetLimits& limits);

/// The days of the course before the collection's day on which whoever of them went without most had no dish
/// at all, ascending. The day of a move is such a day only if neither enclosure had one.
[[nodiscard]] std::vector<units::Day> days_without_dish(const records::Collection& collection,
                                                        const records::Enclosure& enclosure,
                                                        const Inside& inside, const WetLimits& limits);

/// Whether the animal lived there that day. One with no stay on record has always lived where it lives.
[[nodiscard]] bool lived_in(const records::Animal& animal, const records::EnclosureId& enclosure,
                            units::Day day);

}  // namespace mitefall::safety
