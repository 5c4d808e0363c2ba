#pragma once

#include <map>
#include <optional>
#include <vector>

#include "base/vocabulary.h"
#include "plan/schedule.h"
#include "worklist/task.h"

// Work of days gone by that was neither done nor skipped, and the two ways to make it up.
namespace mitefall::worklist {

struct Worklist;

/// A round of the course that was missed, or of which a part is left. What was skipped with a reason, what
/// was not permitted then, and what left the collection since is no part of it.
struct LateRound {
    int number = 0;  ///< the first round of the course is 1
    int of = 0;      ///< rounds of the course
    units::Day planned;
    int tasks = 0;           ///< that were due and are not done
    int enclosures = 0;      ///< in which they were due
    int done = 0;            ///< tasks of the round that are done
    int today = 0;           ///< of `tasks`, those on today's list: the rest is not permitted today
    bool overtaken = false;  ///< a later round is due as well, and takes its place on today's list
};

/// An enclosure in which somebody has been without a dish for longer than the rules allow.
struct LateDish {
    records::EnclosureId enclosure;
    std::optional<units::Day> since;    ///< none: it is not on record
    std::optional<units::Day> back_by;  ///< the last day on which it was to be put back; none as above
};

/// A day of checks, and the enclosures nobody has looked into since.
struct LateCheck {
    units::Day planned;
    std::vector<records::EnclosureId> enclosures;
};

/// How a missed round is made up.
enum class CatchUp {
    today,  ///< today; the rounds after it stay on their days as far as the least interval allows
    move,   ///< today; the rounds after it keep their distance from it
};
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(CatchUp) {
    using enum CatchUp;
    return base::vocabulary("way to catch up", today, "today", move, "move");
}

/// A round that cannot stay where it was: it would be closer to the one before than plan::shortest_interval.
struct HeldRound {
    units::Day planned;
    units::Day day;
    friend bool operator==(const HeldRound&, const HeldRound&) = default;
};

/// The days of a course once what is late of it is made up.
struct Redated {
    std::vector<units::Day> rounds;  ///< all of the course, ascending, those gone by too
    std::vector<records::MovedRound> moved;
    std::vector<HeldRound> held;
    std::vector<units::Day> given_up;  ///< rounds that are not made up
    friend bool operator==(const Redated&, const Redated&) = default;
};

struct Late {
    std::vector<LateRound> rounds;  ///< by day
    std::vector<LateDish> dishes;   ///< in working order
    std::optional<LateCheck> check;
    std::optional<Redated> today;  ///< where a round is late
    std::optional<Redated> move;   ///< the same; none where it is nothing else than `today`

    [[nodiscard]] bool is_any() const { return !rounds.empty() || !dishes.empty() || check.has_value(); }
    [[nodiscard]] const std::optional<Redated>& by(CatchUp how) const {
        return how == CatchUp::today ? today : move;
    }
};

/// The days as which the collection is to be judged to know what is late: those of the rounds that may be,
/// and yesterday. Empty where no round may be late.
[[nodiscard]] std::vector<units::Day> days_in_question(const records::Collection& today);

/// What is late on the setting's day. `list`: of that day. `then`: the collection and its verdicts at the end
/// of each of the `days_in_question`.
[[nodiscard]] Late late_on(const plan::Setting& setting, const Worklist& list,
                           const std::map<units::Day, const safety::Case*>& then);

/// The course with its missed rounds made up today. `first`: the first of them, by its place in `rounds`.
[[nodiscard]] Redated redate(const records::PlanAdopted& plan, std::size_t first, units::Day today,
                             CatchUp how);

}  // namespace mitefall::worklist
