#pragma once

#include "formats/why_days.h"
#include "service/keeper.h"
#include "worklist/late.h"

// Why a course has these days, and what other days would do.
namespace mitefall::service {

struct WhyDaysOptions {
    std::string enclosure;         ///< empty: the warmest and the coldest that is lived in
    std::vector<units::Day> days;  ///< of the rounds still to come; empty: as they are
    double horizon_days = 84;      ///< of the chance; of the adopted course from its beginning on
    std::size_t draws = usual_draws;
    std::uint64_t seed = 1;
    std::function<bool(double)> progress;
};

struct WhyDays {
    formats::StripView view;
    plan::Schedule schedule;  ///< of the course on the days asked for
};

/// What the rounds of a course catch and what passes under them, by the model, in the warmest and the coldest
/// of its enclosures that are lived in, or in the one named; and the chance of clear of the course on the
/// days asked for, every treatment of it asked of the safety check anew. Nothing is recorded. `course`: the
/// days and places as they stand. Errors: invalid_input for days that are no such course; not_found for an
/// enclosure that is not of the course or where none of them is lived in; conflict: cancelled.
[[nodiscard]] base::Result<WhyDays> why_days_of(const Situation& situation, const plan::Setting& setting,
                                                const plan::Assignment& course,
                                                const WhyDaysOptions& options);

/// The same of what is left of the adopted course. A round of which something is done stays on its day.
/// Errors as `rescore` too.
[[nodiscard]] base::Result<WhyDays> why_days_on_record(const Situation& situation,
                                                       const WhyDaysOptions& options);

/// The days of the adopted course with its rounds to come on these. Errors: not_found without one;
/// invalid_input as above.
[[nodiscard]] base::Result<worklist::Redated> adopted_on(const Situation& situation,
                                                         const std::vector<units::Day>& days);

}  // namespace mitefall::service
