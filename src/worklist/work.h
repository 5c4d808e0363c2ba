#pragma once

#include <string>
#include <vector>

#include "statement/statement.h"

// What the day's work can say. One row each in work.def, from which everything here is made.
namespace mitefall::worklist::work {

using statement::Names;
using statement::Statement;
using statement::takes;
using statement::Term;
using units::Day;
using units::Temperature;

#define WORK(id, arguments) inline constexpr auto id = statement::kind(#id, arguments);
#include "worklist/work.def"
#undef WORK

/// Every row of work.def, in its order.
[[nodiscard]] inline std::vector<statement::Row> all() {
    return {
#define WORK(id, arguments) statement::row_of(id),
#include "worklist/work.def"
#undef WORK
    };
}

}  // namespace mitefall::worklist::work
