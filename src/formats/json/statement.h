#pragma once

#include "formats/json/json.h"
#include "safety/verdict.h"
#include "statement/statement.h"

// What is told, as id and typed arguments beside the sentence. The key of an amount ends in its unit.
namespace mitefall::formats {

/// {name: value}; the name of an amount ends in its unit ("weight_g").
[[nodiscard]] Json arguments_json(const statement::Statement& statement);

/// {"rule", "args", "text"}
[[nodiscard]] Json told_json(const statement::Statement& statement);

/// A reason with all that is known about it.
[[nodiscard]] Json reason_json(const safety::Reason& reason);

/// Why something is not done, by rule, and in the two parts of words::Shared, for gathering.
[[nodiscard]] Json why_json(const safety::Reason& reason);

[[nodiscard]] Json caution_json(const safety::Caution& caution);

}  // namespace mitefall::formats
