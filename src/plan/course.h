#pragma once

#include <string>
#include <vector>

#include "base/vocabulary.h"
#include "records/facts/course.h"
#include "records/names.h"
#include "statement/statement.h"
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
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(Scope) {
    using enum Scope;
    return base::vocabulary("scope", chosen, "chosen", sighted, "sighted", sighted_rooms, "sighted-rooms",
                            exposed, "exposed", everything, "everything");
}

/// A course of treatment, before anybody asked whether each animal may have it.
struct Course {
    int rounds = 1;
    int interval_days = 7;
    records::CourseChoices choices = {true, true, false, {}};
    Scope scope = Scope::sighted_rooms;
    bool treat_rooms = true;  ///< floor and racks of the rooms in scope in which no animal lives
    friend bool operator==(const Course&, const Course&) = default;
};

/// What is really done under a course once the safety check was asked: whether any permitted treatment is of
/// the kind.
struct Doings {
    bool sprays = false;   ///< animals
    bool soaks = false;    ///< animals
    bool wipes = false;    ///< animals
    bool bedding = false;  ///< sprayed
    bool damp = false;     ///< paper wetted again after a spraying
    bool substrate = false;
    bool heads = false;  ///< gone over by hand
    bool tubs = false;   ///< clean ones, in place of the old
    bool rooms = false;
    bool wood = false;  ///< emptied for the course
    friend bool operator==(const Doings&, const Doings&) = default;
};

/// A permitted treatment of the kind is among them.
void note(records::Method method, const records::EnclosureId& enclosure,
          const records::CourseChoices& choices, Doings& does);

/// Of an adopted course whose terms are on record.
[[nodiscard]] Doings doings_of(const records::PlanAdopted& course);

/// What is done, part by part (told.def): "with floor and racks of emptied rooms", "substrate changed each
/// round", "animals sprayed", "bedding sprayed, paper left to dry".
[[nodiscard]] std::vector<statement::Statement> tell(const Doings& does);

/// "1 round", "3 rounds 7 days apart", "5 rounds, 5 to 7 days apart": as the days really are, ascending.
[[nodiscard]] statement::Statement tell(const std::vector<units::Day>& rounds);

/// What the course does, never what was only asked for: "3 rounds 7 days apart, the whole room, substrate
/// changed each round, animals sprayed, bedding sprayed, paper kept damp with the spray".
[[nodiscard]] statement::Statement tell(const Course& course, const std::vector<units::Day>& rounds,
                                        const Doings& does);

/// The limits of the search.
inline constexpr int most_rounds = 8;  ///< the safety check ends the sprayings sooner; gentler methods go on
inline constexpr int shortest_interval = 3;  ///< days
inline constexpr int longest_interval = 14;  ///< days
inline constexpr int usual_interval = 7;     ///< of further rounds to a course of one
inline constexpr int own_date_window = 56;   ///< days after the last round

}  // namespace mitefall::plan
