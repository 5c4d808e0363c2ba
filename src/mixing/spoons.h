#pragma once

#include <span>
#include <string_view>

#include "mixing/tools.h"

// The spoons of a measuring set. A spoon is told by the whole of its marks and the part of it that it holds.
namespace mitefall::mixing {

struct Spoon {
    std::string_view written;  ///< as a keeper asks for it: "1/2 US tsp"
    std::string_view name;     ///< as it is told: "US half-teaspoon"
    Marks marks;
    double part;  ///< of one of its marks: 1, 0.5 or 0.25
};

/// All that are known, each set from its largest. US: NIST Handbook 44 appendix C; 5 mL: common practice.
[[nodiscard]] std::span<const Spoon> spoons_of_the_trade();

/// The whole spoon of these marks, which must be those of a spoon.
[[nodiscard]] const Spoon& whole_spoon(Marks marks);

/// By what is written or by its name. Error: lists those that are known.
[[nodiscard]] base::Result<Spoon> read_spoon(std::string_view text);

/// Measures itself and nothing else; off by `spoon_error` of what it holds, an assumption, however small it
/// is.
[[nodiscard]] Tool level_spoon(const Spoon& spoon, const evidence::Tables& tables);

/// What a spoon holds of one of its marks: 0.5 for a half-teaspoon.
[[nodiscard]] double part_of_spoon(const Tool& spoon);

}  // namespace mitefall::mixing
