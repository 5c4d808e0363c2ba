#include "mixing/round_batch.h"

#include <array>
#include <cmath>
#include <vector>

#include "mixing/compare.h"
#include "mixing/measure_search.h"

namespace mitefall::mixing {
namespace {

constexpr double rounding = 1e-9;
constexpr double most_times = 10;  // what is needed; more is to be disposed of for want of a finer tool

constexpr std::array round_millilitres{
    10.,  15.,  20.,  25.,   30.,   40.,   50.,   60.,   80.,   100.,  150.,  200.,  250.,   300.,   400.,
    500., 600., 800., 1000., 1500., 2000., 2500., 3000., 4000., 5000., 6000., 8000., 10000., 15000., 20000.};

/// Whole ounces to a quart, then in steps that bottles and buckets are marked with.
std::vector<double> round_ounces() {
    std::vector<double> ounces;
    for (int one = 1; one <= 640; one += one < 32 ? 1 : one < 64 ? 4 : one < 160 ? 16 : 32)
        ounces.push_back(one);
    return ounces;
}

std::vector<units::Volume> volumes(std::span<const double> numbers, Marks marks) {
    std::vector<units::Volume> all;
    for (const double number : numbers) all.push_back(one_of(marks) * number);
    return all;
}

/// Assumptions; 20 L at most.
std::vector<units::Volume> round_amounts(units::UnitSystem system) {
    switch (system) {
        case units::UnitSystem::metric: break;
        case units::UnitSystem::us: return volumes(round_ounces(), Marks::us_fluid_ounces);
        case units::UnitSystem::imperial: return volumes(round_ounces(), Marks::imperial_fluid_ounces);
    }
    return volumes(round_millilitres, Marks::millilitres);
}

class RoundSearch {
  public:
    RoundSearch(const RoundRequest& request, const evidence::Tables& tables)
        : request_(request), tables_(tables) {
        if (request.way == nullptr) return;
        least_ = trouble_of(*request.way);
        if (!least_->rough) fine_from_ = request.needed.total;
    }

    [[nodiscard]] std::optional<RoundBatch> find() {
        if (least_ && !is_awkward(*least_)) return std::nullopt;
        std::optional<RoundBatch> best;
        for (const units::Volume volume : round_amounts(request_.system)) {
            if (volume <= request_.needed.total * (1 + rounding)) continue;
            if (is_too_much(volume) || effort_.is_spent()) break;
            take_if_better(volume, best);
        }
        return best;
    }

  private:
    [[nodiscard]] bool is_too_much(units::Volume volume) const {
        if (request_.bottle && volume > *request_.bottle * (1 + rounding)) return true;
        if (volume > request_.needed.total * (most_times + rounding)) return true;
        return fine_from_ && volume > *fine_from_ * (2 + rounding);
    }

    void take_if_better(units::Volume volume, std::optional<RoundBatch>& best) {
        const auto recipe = mix(request_.stock, volume, request_.needed.strength);
        if (!recipe) return;
        const auto measured =
            measure_batch(*recipe, request_.stock, request_.tools, usual_accuracy(tables_), effort_);
        if (!measured || compare_strength(measured->resulting, tables_).standing == Standing::above) return;
        const Trouble trouble = trouble_of(*measured);
        if (trouble.rough && volume > request_.needed.total * (2 + rounding)) return;
        if (!fine_from_ && !trouble.rough) fine_from_ = volume;
        if (least_ && trouble >= *least_) return;
        least_ = trouble;
        best = RoundBatch{*recipe, *measured, volume - request_.needed.total};
    }

    const RoundRequest& request_;
    const evidence::Tables& tables_;
    Effort effort_;                           ///< for all amounts together
    std::optional<Trouble> least_;            ///< of what is needed and of what was found; none: no way yet
    std::optional<units::Volume> fine_from_;  ///< the least amount that is measured finely
};

}  // namespace

bool is_hard_to_read(const Measure& measure) {
    constexpr double few_marks = 20;
    constexpr double found = 5;
    if (measure.tool.capacity / measure.tool.graduation <= few_marks * (1 + rounding)) return false;
    const double fifths = measure.amount / measure.tool.graduation / found;
    return std::fabs(fifths - std::round(fifths)) > 1e-6;
}

Trouble trouble_of(const Measured& measured) {
    Trouble trouble{measured.measurement.rough, 0, 0};
    const auto add = [&](const Measurement& one) {
        trouble.steps += one.steps;
        for (const Measure& measure : one.measures) trouble.hard_marks += is_hard_to_read(measure) ? 1 : 0;
    };
    if (measured.first) add(measured.first->stock);
    if (measured.first) add(measured.first->water);
    add(measured.measurement);
    return trouble;
}

bool is_awkward(const Trouble& trouble) {
    return trouble.rough || trouble.steps > 2 || trouble.hard_marks > 0;
}

std::optional<RoundBatch> easier_round_batch(const RoundRequest& request, const evidence::Tables& tables) {
    return RoundSearch(request, tables).find();
}

}  // namespace mitefall::mixing
