#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "mixing/money.h"
#include "mixing/stock_form.h"
#include "units/amounts.h"

// What the label of a bottle, can or bag says, as its keeper types it: ingredients with strengths, never a
// brand.
namespace mitefall::mixing {

struct LabelLine {
    std::string name;                         ///< of the ingredient, as written
    std::string amount;                       ///< its strength, as written; empty: the label does not tell
    std::optional<units::Strength> strength;  ///< none: not told, or nothing that makes mg/L
    bool is_bare_percent = false;             ///< read as w/v: near enough for a place, never for an animal
};

struct Label {
    std::vector<LabelLine> lines;
    StockForm form = StockForm::not_told;  ///< combination: by its keeper; the lines say so too
    std::optional<units::Volume> pack;
    std::optional<Money> price;
};

/// "permethrin 0.5 %", "ivermectin: 10 mg/mL", "0.5 % w/v permethrin" or a name alone. A strength that says
/// nothing of mg in a volume ("10 mg/g", "2 %") is kept as it is written. Errors: no name; a strength above
/// 100 %; a comma in a number.
[[nodiscard]] base::Result<LabelLine> read_label_line(std::string_view text);

}  // namespace mitefall::mixing
