#pragma once

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
