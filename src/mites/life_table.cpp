#include "mites/life_table.h"

#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "base/contract.h"

namespace mitefall::mites {

double net_reproduction(std::span<const AgeClass> table) {
    double sum = 0;
    for (const AgeClass& row : table) sum += row.survival * row.fecundity;
    return sum;
}

double intrinsic_rate(std::span<const AgeClass> table) {
    base::expects(net_reproduction(table) > 0, "somebody reproduces");
    const auto excess = [&](double r) {
        double sum = 0;
        for (const AgeClass& row : table) sum += std::exp(-r * row.age) * row.survival * row.fecundity;
        return std::log(sum);
    };
    std::uintmax_t iterations = 200;
    const auto [low, high] = boost::math::tools::bracket_and_solve_root(
        [&](double growth) { return excess(std::log(growth)); }, 1.0, 2.0, false,
        boost::math::tools::eps_tolerance<double>(48), iterations);
    return std::log((low + high) / 2);
}

double generation_time(std::span<const AgeClass> table) {
    return std::log(net_reproduction(table)) / intrinsic_rate(table);
}

}  // namespace mitefall::mites
