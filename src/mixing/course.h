#pragma once

#include <optional>
#include <vector>

#include "base/result.h"
#include "evidence/tables.h"
#include "mixing/dilution.h"
#include "mixing/money.h"
#include "units/amounts.h"
#include "units/day.h"

namespace mitefall::mixing {

/// One day of spraying: the animals misted and the floor sprayed.
struct SprayDay {
    units::Day day;
    std::vector<units::Mass> animals;
    units::Area bedding;
};

/// Paper kept damp each day from `first` to `last`, both included.
struct DampPaper {
    units::Area area;
    units::Day first;
    units::Day last;
    std::vector<units::Day> sprayed;  ///< days in between on which it is sprayed and needs no more
};

struct Package {
    units::Volume volume;
    std::optional<Money> price;
};

struct CourseRequest {
    std::vector<SprayDay> sprayings;
    std::vector<DampPaper> damp;
    Stock stock;
    units::Strength target;
    bool preserved = false;
    std::vector<Package> packages;        ///< sizes the stock is sold in; may be empty
    std::optional<units::Share> spare;    ///< default: the evidence row
    std::optional<units::Volume> bottle;  ///< most one batch may hold; default: no limit
};

struct DayNeed {
    units::Day day;
    units::Volume volume;  ///< without spare
};

struct Batch {
    units::Day made_on;
    units::Day discard_by;  ///< last day of use
    Recipe recipe;          ///< spare included
    int wetting_drops = 0;
};

struct Purchase {
    Package package;
    long long number = 0;
    std::optional<Money> cost;
};

struct CourseTotals {
    std::vector<DayNeed> needs;  ///< by day
    std::vector<Batch> batches;  ///< by day
    units::Volume spray;         ///< all batches
    units::Volume stock;         ///< all batches
    std::optional<Purchase> purchase;
    std::optional<Money> cost_per_animal;
};

/// Last day a water mix may be used: 14 days, 35 if preserved (USP <795> 2023), never after the stock
/// expires.
[[nodiscard]] units::Day discard_by(units::Day made_on, bool preserved,
                                    std::optional<units::Day> stock_expires, const evidence::Tables& tables);

/// Drops of mild dish soap for a volume of spray: 6 in 32 US fl oz, at least one.
[[nodiscard]] base::Result<int> wetting_drops(units::Volume spray, const evidence::Tables& tables);

/// Spray needed on one day, without spare.
[[nodiscard]] base::Result<units::Volume> spray_needed(const SprayDay& spraying,
                                                       const evidence::Tables& tables);

/// Everything to mix and to buy for a course. Fewest batches: each lasts as long as it may, in a bottle of
/// its own if there is a limit. A day that needs more than one bottle gets several alike.
[[nodiscard]] base::Result<CourseTotals> plan_mixing(const CourseRequest& request,
                                                     const evidence::Tables& tables);

/// The package size of least cost that holds `needed` in whole packages; without prices, of least excess.
[[nodiscard]] base::Result<Purchase> choose_packages(units::Volume needed,
                                                     const std::vector<Package>& packages);

}  // namespace mitefall::mixing
