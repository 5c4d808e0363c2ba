#pragma once

#include "formats/helps.h"
#include "plan/search.h"
#include "service/changes.h"
#include "service/keeper.h"

namespace mitefall::service {

/// What a change would do to the chance of the best course that is permitted then.
struct Helped {
    Change change;
    plan::Course course;
    std::vector<units::Day> rounds;
    plan::Doings does;
    base::Band clear;
    bool meets_target = false;
    double gain = 0;  ///< of the mean chance of clear; below 0 where the best course found then is not better
};

/// What stands in the way of a better course, by what it would bring to change it.
struct Helps {
    base::Band clear;  ///< of the course recommended as things are
    bool meets_target = false;
    double target = 0;
    std::vector<Helped> changes;      ///< each by itself, best first
    std::optional<Helped> all_own{};  ///< all that the keeper can do alone, at once
};

/// For each single change that is possible today (changes.h): the search is made anew, with the records as
/// they would be. Nothing is recorded. Errors as `choose_plan`.
[[nodiscard]] base::Result<Helps> what_helps(const Situation& situation, const PlanOptions& options);

/// The same for whoever shows it, with sources in full.
[[nodiscard]] formats::HelpsView view_of(const Helps& helps, const Knowledge& knowledge);

}  // namespace mitefall::service
