#pragma once

#include <optional>

#include "base/result.h"
#include "units/amounts.h"
#include "units/day.h"

namespace mitefall::mixing {

/// What is in the keeper's bottle of stock.
struct Stock {
    units::Strength strength;
    std::optional<units::Day> expires;  ///< last day of use
};

struct Recipe {
    units::Volume stock;
    units::Volume diluent;
    units::Volume total;
    units::Strength strength;  ///< of the mix
};

/// Stock and diluent for `batch` of strength `target`: C1 V1 = C2 V2. Refuses amounts that are not positive
/// and finite, a strength above 100 % w/v and a target above the stock.
[[nodiscard]] base::Result<Recipe> mix(units::Strength stock, units::Volume batch, units::Strength target);

/// The same, also refusing a stock that has expired on the day of mixing.
[[nodiscard]] base::Result<Recipe> mix(const Stock& stock, units::Volume batch, units::Strength target,
                                       units::Day mixed_on);

/// What a keeper's recipe makes: `stock_volume` filled up to `total`. Refuses a bottle smaller than the stock
/// in it.
[[nodiscard]] base::Result<units::Strength> strength_of(units::Strength stock, units::Volume stock_volume,
                                                        units::Volume total);

/// Whether the stock may be used on that day.
[[nodiscard]] base::Result<void> check_stock(const Stock& stock, units::Day day);

}  // namespace mitefall::mixing
