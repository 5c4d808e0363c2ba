#pragma once

#include <string>
#include <vector>

#include "statement/statement.h"

// What a course does. One row each in told.def, from which everything here is made.
namespace mitefall::plan::told {

using statement::Statement;
using statement::takes;
using statement::Term;

#define TOLD(id, arguments) inline constexpr auto id = statement::kind(#id, arguments);
#include "plan/told.def"
#undef TOLD

/// Every row of told.def, in its order.
[[nodiscard]] inline std::vector<statement::Row> all() {
    return {
#define TOLD(id, arguments) statement::row_of(id),
#include "plan/told.def"
#undef TOLD
    };
}

}  // namespace mitefall::plan::told
