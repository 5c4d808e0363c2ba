#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.h"
#include "units/text.h"

// Measures of the kitchen, which are not the same in every country.
namespace mitefall::units {

/// A measure of the kitchen, which is not the same everywhere. mL; 0: there is none of that kind.
struct CustomaryUnit {
    std::string_view name;  ///< as errors show it
    std::array<std::string_view, 6> names;
    double us, imperial, metric;
    NamedMeasure measure;
};

/// A unit of the kitchen as it was written; `millilitres` is 0 where nobody said which, or there is none.
struct Customary {
    const CustomaryUnit* unit = nullptr;
    double millilitres = 0;
};

/// `written` as tidied (written.h); none for what is no measure of the kitchen.
[[nodiscard]] std::optional<Customary> find_customary(std::string_view written);

/// What a volume may be written in, for errors.
[[nodiscard]] std::string known_volumes();

/// The error that asks back, with how to write each.
[[nodiscard]] base::Error ask_which(std::string_view text, const CustomaryUnit& unit,
                                    std::string_view written);

}  // namespace mitefall::units
