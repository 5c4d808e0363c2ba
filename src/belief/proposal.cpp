#include "belief/proposal.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "base/contract.h"

namespace mitefall::belief {
namespace {

constexpr double defensive_part = 0.2;
constexpr double several_picks = 0.4;  // of the histories, where several finds may need as many ways in

void scale(std::vector<double>& values, double sum) {
    for (double& value : values) value *= sum;
}

}  // namespace

Proposal::Proposal(const Sources& sources, std::vector<double> pull, std::size_t most_picks)
    : sources_(&sources), pull_(std::move(pull)) {
    base::expects(most_picks > 0 && most_picks <= most_ways_in, "a few cells are picked");
    base::expects(pull_.size() == sources.cells.size() && !pull_.empty(), "a pull for every cell");
    double chances = 0;
    for (const Cell& cell : sources.cells) chances += cell.chance;
    const double sum = std::accumulate(pull_.begin(), pull_.end(), 0.0);
    scale(pull_, sum > 0 ? (1 - defensive_part) / sum : 0);
    const double rest = (sum > 0 ? defensive_part : 1) / chances;
    for (std::size_t i = 0; i < pull_.size(); ++i) pull_[i] += rest * sources.cells[i].chance;
    const double others = most_picks > 1 ? several_picks : 0;
    chance_of_picks_.assign(most_picks, others / std::max(1.0, static_cast<double>(most_picks) - 1));
    chance_of_picks_[0] = 1 - others;
    up_to_.assign(pull_.size(), 0.0);
    std::partial_sum(pull_.begin(), pull_.end(), up_to_.begin());
}

std::uint32_t Proposal::pick(base::RandomStream& random) const {
    const auto found = std::upper_bound(up_to_.begin(), up_to_.end(), random.uniform() * up_to_.back());
    const auto index = static_cast<std::size_t>(std::distance(up_to_.begin(), found));
    return static_cast<std::uint32_t>(std::min(index, up_to_.size() - 1));
}

std::vector<std::uint32_t> Proposal::draw(base::RandomStream& random) const {
    std::size_t picks = 1;
    double left = random.uniform() - chance_of_picks_[0];
    for (; left >= 0 && picks < chance_of_picks_.size(); ++picks) left -= chance_of_picks_[picks];
    std::vector<std::uint32_t> cells;
    for (std::size_t i = 0; i < picks; ++i) cells.push_back(pick(random));
    draw_cells(*sources_, random, cells);
    std::sort(cells.begin(), cells.end());
    cells.erase(std::unique(cells.begin(), cells.end()), cells.end());
    return cells;
}

// n picks give, over all ways to pick cells of the set n times in a row, the sum of the products of their
// pulls over the chances of the cells picked, each once: n! times the coefficient of t^n in the product over
// the set of 1 + (exp(pull t) - 1) / chance.
double Proposal::ratio(std::span<const std::uint32_t> cells) const {
    const std::size_t most = chance_of_picks_.size();
    std::array<double, Proposal::most_ways_in + 1> product{1};
    for (const std::uint32_t cell : cells) {
        for (std::size_t n = most; n > 0; --n) {
            double term = 1 / sources_->cells[cell].chance;
            for (std::size_t m = 1; m <= n; ++m) {
                term *= pull_[cell] / static_cast<double>(m);
                product[n] += term * product[n - m];
            }
        }
    }
    double sum = 0;
    double factorial = 1;
    for (std::size_t n = 1; n <= most; ++n) {
        factorial *= static_cast<double>(n);
        sum += chance_of_picks_[n - 1] * factorial * product[n];
    }
    return sum;
}

}  // namespace mitefall::belief
