#pragma once

#include <string>
#include <vector>

#include "records/names.h"
#include "units/amounts.h"
#include "units/day.h"

namespace mitefall::plan {

/// How far the treatment reaches.
enum class Scope {
    chosen,         ///< only those the keeper names (Limits::only)
    sighted,        ///< only the enclosures where mites were seen
    sighted_rooms,  ///< every enclosure of their rooms
    exposed,        ///< the same, and every other enclosure with a contact on record
    everything,     ///< every enclosure of the collection
};
[[nodiscard]] std::string_view to_text(Scope scope);   ///< "sighted-rooms"
[[nodiscard]] std::string_view describe(Scope scope);  ///< "the whole room"

/// A course of treatment, before anybody asked whether each animal may have it.
struct Course {
    int rounds = 1;
    int interval_days = 7;
    bool change_substrate = true;
    bool keep_damp = true;
    Scope scope = Scope::sighted_rooms;
    bool treat_rooms = true;    ///< floor and racks of the rooms in scope in which no animal lives
    bool soak_animals = false;  ///< in plain water, instead of the spray
    friend bool operator==(const Course&, const Course&) = default;
};

/// "3 rounds 7 days apart, the whole room, substrate changed each round, paper kept damp"
[[nodiscard]] std::string describe(const Course& course);

/// The limits of the search.
inline constexpr int most_rounds = 5;
inline constexpr int shortest_interval = 3;  ///< days
inline constexpr int longest_interval = 14;  ///< days
inline constexpr int own_date_window = 7;    ///< days after a round

}  // namespace mitefall::plan
