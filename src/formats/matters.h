#pragma once

#include <string>

#include "evidence/tables.h"
#include "forecast/sensitivity.h"
#include "formats/json/json.h"

// Which assumptions an answer depends on, for people and for programs.
namespace mitefall::formats {

struct MattersView {
    std::string plan;  ///< which course the answer is about
    bool adopted = false;
    base::Band clear;
    const forecast::Sensitivity& sensitivity;
    const evidence::Tables& tables;
};

[[nodiscard]] std::string matters_text(const MattersView& view);
[[nodiscard]] Json matters_json(const MattersView& view);

}  // namespace mitefall::formats
