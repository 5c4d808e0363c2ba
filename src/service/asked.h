#pragma once

#include <string>
#include <vector>

#include "statement/statement.h"

// What is asked before facts go on record. One row each in asked.def, from which everything here is made.
namespace mitefall::service::asked {

using statement::Names;
using statement::Statement;
using statement::takes;
using statement::Term;
using units::Day;

#define ASKED(id, arguments) inline constexpr auto id = statement::kind(#id, arguments);
#include "service/asked.def"
#undef ASKED

/// Every row of asked.def, in its order.
[[nodiscard]] inline std::vector<statement::Row> all() {
    return {
#define ASKED(id, arguments) statement::row_of(id),
#include "service/asked.def"
#undef ASKED
    };
}

}  // namespace mitefall::service::asked
