#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "mixing/label.h"

namespace mitefall::formats {

/// A label as a keeper types it.
struct LabelWords {
    std::vector<std::string> ingredients;  ///< "permethrin 0.5 %"
    std::string form;                      ///< "plain", "pour-on", "paste", "combination"; empty: not told
    std::string pack;                      ///< "500 mL"
    std::string price;                     ///< "12.90 EUR"
    [[nodiscard]] bool empty() const {
        return ingredients.empty() && form.empty() && pack.empty() && price.empty();
    }
};

/// Names of the options, for errors.
struct LabelOptions {
    std::string_view ingredient, form, pack, price;
};

/// Errors name the option. At least one ingredient, at most twenty.
[[nodiscard]] base::Result<mixing::Label> read_label(const LabelWords& words, const LabelOptions& options);

}  // namespace mitefall::formats
