#pragma once

#include <string>
#include <vector>

#include "statement/statement.h"

// What the tracing can say. One row each in paths.def, from which everything here is made.
namespace mitefall::exposure::tells {

using statement::Names;
using statement::Statement;
using statement::takes;
using units::Day;

#define PATH(id, arguments) inline constexpr auto id = statement::kind(#id, arguments);
#include "exposure/paths.def"
#undef PATH

/// Every row of paths.def, in its order.
[[nodiscard]] inline std::vector<statement::Row> all() {
    return {
#define PATH(id, arguments) statement::row_of(id),
#include "exposure/paths.def"
#undef PATH
    };
}

}  // namespace mitefall::exposure::tells
