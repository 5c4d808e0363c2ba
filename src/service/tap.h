#pragma once

#include <optional>
#include <string>
#include <vector>

#include "records/names.h"
#include "units/day.h"
#include "worklist/task.h"

// What a reader of the worklist asked for, with what they saw when they asked, and what became of it.
namespace mitefall::service {

/// A request told apart from all others by its key. `what` tells whether the same is asked again.
struct Asked {
    std::string key;
    std::string what;
};

/// "Done" or "skip", said of a task somebody saw open.
struct Tap {
    std::string key;                     ///< of the task
    std::optional<units::Day> day = {};  ///< of the list it stood on; today without one
    std::optional<records::FactId> seen =
        {};  ///< last entry the list was made from; without one: all there are
    std::optional<worklist::CheckAnswer> answer = {};  ///< of a check, and of nothing else
    std::string by = {};                               ///< initials of who said it; may be empty
};

/// A tick or a skip to take back, named by the entry that is its mark, or by the request that made it.
struct TakeBack {
    std::string key;                            ///< of the task
    std::optional<records::FactId> entry = {};  ///< TaskDone or TaskSkipped; without one: the mark in force
    std::string of = {};                        ///< key of the request, where its answer never came
};

/// What became of a task.
struct Ticked {
    worklist::TaskState state = worklist::TaskState::open;
    bool already = false;  ///< it was so before; nothing was written
    std::vector<records::FactId> entries =
        {};                        ///< that made it so, in order; of an open task those taken back
    std::string recorded_at = {};  ///< when it was made so, UTC, ISO 8601; empty: it never was
    records::FactId entry = 0;     ///< last entry of the journal when this was answered
};

}  // namespace mitefall::service
