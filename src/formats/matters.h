#pragma once

#include <string>
#include <string_view>

#include "base/band.h"
#include "evidence/tables.h"
#include "forecast/sensitivity.h"
#include "statement/statement.h"

// Which assumptions an answer depends on.
namespace mitefall::formats {

struct MattersView {
    statement::Statement plan;  ///< which course the answer is about (plan/told.def)
    bool adopted = false;
    base::Band clear;
    const forecast::Sensitivity& sensitivity;
    const evidence::Tables& tables;
};

/// What a parameter is, in words, and its unit.
struct ParameterLabel {
    std::string meaning;
    std::string unit;
};

[[nodiscard]] ParameterLabel label_of(std::string_view key, const evidence::Tables& tables);

}  // namespace mitefall::formats
