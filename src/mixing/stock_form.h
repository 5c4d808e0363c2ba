#pragma once

#include <optional>
#include <string_view>

#include "base/result.h"
#include "base/vocabulary.h"

// What is in the bottle of stock, by its ingredients and form. Whoever does not say is asked.
namespace mitefall::mixing {

enum class StockForm {
    not_told,
    plain,        ///< ivermectin alone, a clear solution
    pour_on,      ///< meant to go through skin
    paste,        ///< meant to be eaten; cannot be measured
    combination,  ///< with another drug in it
};

using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(StockForm) {
    using enum StockForm;
    return base::vocabulary("form of stock", not_told, "", plain, "plain", pour_on, "pour-on", paste, "paste",
                            combination, "combination");
}

/// Empty text: not told. Error: no such form.
[[nodiscard]] base::Result<StockForm> find_stock_form(std::string_view text);

/// The same, to mix from. Errors: no such form; refused for all that is not a plain solution.
[[nodiscard]] base::Result<StockForm> read_stock_form(std::string_view text);

/// The question, as an error: no recipe is given before it is answered.
[[nodiscard]] base::Error ask_stock_form();

}  // namespace mitefall::mixing
