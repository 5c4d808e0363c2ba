#include <array>
#include <cmath>
#include <vector>

#include "mixing/bench.h"
#include "mixing/measure_search.h"

// Serial dilution: a simple part of stock in water, and the batch from that.
namespace mitefall::mixing {
namespace {

constexpr int most_steps = 8;  // for each of the three amounts: more is a recipe for mistakes

/// One amount measured as closely as the tools allow at several prices in steps.
using Ways = std::vector<Measurement>;

class PreDilutionSearch {
  public:
    PreDilutionSearch(const Recipe& recipe, units::Strength stock, std::span<const Tool> tools,
                      units::Share wanted, Effort& effort)
        : recipe_(recipe), stock_(stock), tools_(tools), wanted_(wanted), effort_(&effort) {}

    /// Parts of ten first: they are the easiest to do and to check. Of each, the smallest vessel that does.
    [[nodiscard]] std::optional<Measured> find() const {
        for (const double factor : {10.0, 5.0, 20.0, 4.0, 2.0, 25.0, 50.0, 100.0}) {
            for (const double vessel : {5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 250.0, 500.0, 1000.0}) {
                if (effort_->is_spent()) return std::nullopt;
                if (auto found = try_vessel(factor, units::millilitres(vessel))) return found;
            }
        }
        return std::nullopt;
    }

  private:
    [[nodiscard]] std::optional<Measured> try_vessel(double factor, units::Volume vessel) const {
        constexpr double most_waste = 20;
        const units::Volume needed = recipe_.stock * factor;
        if (needed > vessel || vessel > needed * most_waste) return std::nullopt;
        const Ways last = ways_to_measure(needed);
        if (last.empty()) return std::nullopt;
        const Ways stock = ways_to_measure(vessel / factor);
        if (stock.empty()) return std::nullopt;
        return fewest_steps(stock, ways_to_measure(vessel - vessel / factor), last);
    }

    [[nodiscard]] Ways ways_to_measure(units::Volume volume) const {
        const MeasureSearch search(volume, tools_, wanted_, *effort_, most_steps);
        Ways ways;
        for (const double part : {0.9, 0.7, 0.5, 0.3, 0.15}) {
            auto way = search.fewest_steps(units::share(units::as_fraction(wanted_) * part));
            if (!way) break;
            ways.push_back(std::move(*way));
        }
        return ways;
    }

    [[nodiscard]] std::optional<Measured> fewest_steps(const Ways& stock, const Ways& water,
                                                       const Ways& last) const {
        std::optional<Measured> best;
        int best_steps = 0;
        for (const Measurement& a : stock) {
            for (const Measurement& w : water) {
                for (const Measurement& b : last) {
                    const int steps = a.steps + w.steps + b.steps;
                    if (best && steps >= best_steps) continue;
                    Measured candidate = put_together(a, w, b);
                    if (!is_close(candidate)) continue;
                    best = std::move(candidate);
                    best_steps = steps;
                }
            }
        }
        return best;
    }

    /// Stock `a` and water `w` give the pre-dilution; `b` of that goes into the batch. Every error as unlucky
    /// as it can be.
    [[nodiscard]] Measured put_together(const Measurement& a, const Measurement& w,
                                        const Measurement& b) const {
        const auto mixed = [&](units::Volume stock, units::Volume water) {
            return stock_ * (stock / (stock + water));
        };
        const MeasuredStrength first{mixed(a.total, w.total), mixed(a.low, w.high), mixed(a.high, w.low)};
        const MeasuredStrength resulting{first.nominal * (b.total / recipe_.total),
                                         first.low * (b.low / recipe_.total),
                                         first.high * (b.high / recipe_.total)};
        return {PreDilution{a, w, a.total + w.total, first}, b, resulting};
    }

    [[nodiscard]] bool is_close(const Measured& candidate) const {
        const double limit = units::as_fraction(wanted_);
        return candidate.resulting.high <= recipe_.strength * (1 + limit) &&
               candidate.resulting.low >= recipe_.strength * (1 - limit) &&
               candidate.measurement.high <= candidate.first->total;
    }

    const Recipe& recipe_;
    units::Strength stock_;
    std::span<const Tool> tools_;
    units::Share wanted_;
    Effort* effort_;
};

}  // namespace

std::optional<Measured> dilute_first(const Recipe& recipe, units::Strength stock, std::span<const Tool> tools,
                                     units::Share wanted, Effort& effort) {
    return PreDilutionSearch(recipe, stock, tools, wanted, effort).find();
}

std::optional<Measured> dilute_first(const Recipe& recipe, units::Strength stock, std::span<const Tool> tools,
                                     units::Share wanted) {
    Effort effort;
    return dilute_first(recipe, stock, tools, wanted, effort);
}

}  // namespace mitefall::mixing
