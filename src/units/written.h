#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/result.h"

// An amount as it was written: a number and its unit.
namespace mitefall::units {

struct NumberAndUnit {
    double number;
    std::string unit;  // lower case, inner spaces collapsed
};

[[nodiscard]] base::Result<NumberAndUnit> split(std::string_view text, std::string_view kind,
                                                std::string_view example);

/// "1/2 us tsp", "1 1/2 us tsp": a half, thirds, quarters or eighths less than one, after a whole number or
/// alone. None: not written so.
[[nodiscard]] std::optional<NumberAndUnit> split_fraction(std::string_view text);

struct UnitName {
    std::string_view name;
    double factor;  // to the base unit of the dimension
};

/// Zero or more.
[[nodiscard]] base::Result<double> amount_of(const NumberAndUnit& parts, double factor, std::string_view kind,
                                             std::string_view text);

/// `known`: what errors list; empty: the names of the units.
[[nodiscard]] base::Result<double> in_base_unit(std::string_view text, std::string_view kind,
                                                std::string_view example, std::span<const UnitName> units,
                                                const std::string& known = {});

}  // namespace mitefall::units
