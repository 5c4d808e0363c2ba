#include <cmath>

#include "mixing/check_amounts.h"
#include "mixing/course.h"
#include "units/text.h"

namespace mitefall::mixing {
namespace {

using base::fail;
using base::invalid;
using base::Result;

Result<Purchase> buy(units::Volume needed, const Package& package) {
    if (auto fault = refuse_volume(package.volume, "volume of a package")) return fail(*fault);
    constexpr double rounding = 1e-9;  // of a package: 100.0000000001 mL need no second package of 100 mL
    const double number = std::ceil(needed / package.volume - rounding);
    constexpr double most = 1e9;
    if (!(number <= most)) {
        return fail(invalid("more packages than can be bought", units::show(needed, {}),
                            "a thousand million packages", "check the volume of a package"));
    }
    Purchase purchase{package, std::max(1LL, static_cast<long long>(number)), std::nullopt};
    if (!package.price) return purchase;
    const auto cost = package.price->times(purchase.number);
    if (!cost) return fail(cost.error());
    purchase.cost = *cost;
    return purchase;
}

Result<void> check_prices(const std::vector<Package>& packages) {
    const Package& first = packages.front();
    for (const Package& package : packages) {
        if (package.price.has_value() != first.price.has_value()) {
            return fail(invalid("only some packages have a price", units::show(package.volume, {}),
                                "all or none", "enter the missing prices"));
        }
        if (package.price && package.price->currency() != first.price->currency()) {
            return fail(invalid("prices in two currencies cannot be compared",
                                first.price->currency() + " and " + package.price->currency(), "one currency",
                                "enter all prices in one currency"));
        }
    }
    return {};
}

bool is_better(const Purchase& a, const Purchase& b) {
    const auto volume = [](const Purchase& p) { return p.package.volume * static_cast<double>(p.number); };
    if (a.cost && b.cost && a.cost->minor_units() != b.cost->minor_units()) {
        return a.cost->minor_units() < b.cost->minor_units();
    }
    if (volume(a) != volume(b)) return volume(a) < volume(b);
    return a.number < b.number;
}

}  // namespace

Result<Purchase> choose_packages(units::Volume needed, const std::vector<Package>& packages) {
    if (auto fault = refuse_volume(needed, "volume to buy")) return fail(*fault);
    if (packages.empty()) {
        return fail(
            invalid("no package size is known", "", "at least one", "enter the size the stock is sold in"));
    }
    if (auto comparable = check_prices(packages); !comparable) return fail(comparable.error());
    std::optional<Purchase> best;
    for (const Package& package : packages) {
        const auto purchase = buy(needed, package);
        if (!purchase) return fail(purchase.error());
        if (!best || is_better(*purchase, *best)) best = *purchase;
    }
    return *best;
}

}  // namespace mitefall::mixing
