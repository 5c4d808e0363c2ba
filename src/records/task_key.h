#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "records/facts.h"

namespace mitefall::records {

/// What a task of the worklist is called in the journal, taken apart: "2026-11-25/redampen/tub-2".
struct TaskKey {
    units::Day day;    ///< of the round, or on which the task is to be done
    std::string part;  ///< "animal", "bedding", "redampen", ...
    std::string name;  ///< of the animal, enclosure or room
};

/// What says of a task that it was done, or passed over.
[[nodiscard]] bool is_mark(const Entry& entry);

[[nodiscard]] std::string to_text(units::Day day, std::string_view part, std::string_view name);

/// Empty for a text that is no such key.
[[nodiscard]] std::optional<TaskKey> read_task_key(const std::string& text);

/// Before wetted paper was a fact of its own, the tick was all that told of it. Two of one day are one
/// wetting.
[[nodiscard]] std::optional<PaperWetted> paper_wetted_by(const TaskDone& tick);

}  // namespace mitefall::records
