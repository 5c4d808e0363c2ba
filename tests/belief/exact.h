#pragma once

#include <cmath>
#include <functional>
#include <map>

#include "belief/belief.h"
#include "shared/fixtures.h"

// The exact belief, by another way. Given the draw, mites do not affect one another and introductions happen
// independently, so everything follows from one function per introduction, which the sweep computes:
// G(z) = E[z^X 1{no other check fails}], X = mites seen at a find, z one number for each find. Values at some
// z give P(X = 1).
namespace mitefall::belief::exact {

using namespace fixtures;
using records::SeenCount;

/// One draw eight times over, with much walking, so that the exact answer is that of one draw.
inline mites::Ensemble one_draw() {
    mites::Ensemble ensemble = small_ensemble();
    mites::MiteParameters draw = ensemble.draws[3];
    draw.leaving_rate = 0.05;
    draw.detection_light = 0.8;
    ensemble.draws.assign(branching::lane_count, draw);
    return ensemble;
}

/// Ways in that are frequent, each of one mite, and records without errors.
inline BeliefRequest request_for(const scenario::Scenario& scenario, const mites::Ensemble& ensemble,
                                 std::vector<scenario::Look> looks, double at) {
    BeliefRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble;
    request.looks = std::move(looks);
    request.at = at;
    request.prior = introduction_prior(tables());
    request.prior.arrival_founders = {1, 1, 1};
    request.prior.longer_founders = {1, 1, 1};
    request.prior.unnoticed_entries_per_year = 2;
    request.prior.there_for_longer = 0.1;
    request.prior.errors = {0, 1e-12};
    request.options.most_passes = 2;
    return request;
}

/// The same scenario with its looks as checks; the finds see each mite with its chance times (1 - z), each
/// with the next of `z`, the last of which goes on.
inline scenario::Scenario with_checks(scenario::Scenario scenario, const std::vector<scenario::Look>& looks,
                                      const mites::Ensemble& ensemble, const std::vector<double>& z) {
    const double d = mites::detection_per_mite(ensemble.fixed, ensemble.draws[0]);
    std::size_t finds = 0;
    for (const scenario::Look& look : looks) {
        const bool is_find = look.seen != SeenCount::none;
        const double unseen = is_find ? z[std::min(finds++, z.size() - 1)] : 0;
        const double nest =
            look.where == scenario::LookedAt::animal ? 0 : ensemble.draws[0].detection_nest_part;
        scenario.events.push_back(
            {look.time, scenario::CleanCheck{look.place, scenario::Amount::number(d * (1 - unseen)),
                                             scenario::Amount::number(nest), false}});
    }
    std::stable_sort(scenario.events.begin(), scenario.events.end(),
                     [](const scenario::Event& a, const scenario::Event& b) { return a.time < b.time; });
    return scenario;
}

/// Average over the ways a source begins of (1 - v).
inline double pass(const Introduction& source, double at, const mites::Ensemble& ensemble,
                   const std::function<double(double from, mites::Stage stage, int substage)>& failure) {
    const int shape = ensemble.draws[0].erlang_shape;
    double sum = 0;
    double terms = 0;
    if (source.kind == IntroductionKind::outside)
        return 1 - failure(source.first_day, mites::Stage::adult_seeking_1, 0);
    if (source.kind == IntroductionKind::unnoticed) {
        for (double t = 0.25; t < at; t += 0.5) {
            sum += 1 - failure(t + 0.003, mites::Stage::adult_seeking_1, 0);
            terms += 1;
        }
        return sum / terms;
    }
    const bool longer = source.kind == IntroductionKind::longer;
    for (int meal = 0; meal < (longer ? mites::meal_count : 1); ++meal) {
        const auto stage =
            static_cast<mites::Stage>(static_cast<int>(mites::Stage::adult_feeding_1) + 3 * meal);
        for (int m = 0; m < shape; ++m) {
            sum += 1 - failure(source.first_day, stage, m);
            terms += 1;
        }
    }
    return sum / terms;
}

class Exact {
  public:
    /// `at`: of the belief; `until`: horizon; with survivors failing too, or only checks.
    Exact(const scenario::Scenario& scenario, const mites::Ensemble& ensemble, double at, double until,
          branching::Question question)
        : scenario_(scenario), ensemble_(ensemble), at_(at), until_(until), question_(question) {}

    double of(const Introduction& source) {
        return pass(source, at_, ensemble_, [&](double from, mites::Stage stage, int substage) {
            auto found = swept_.find(from);
            if (found == swept_.end()) {
                found = swept_
                            .emplace(from, Swept(scenario_, network::keep_apart(scenario_),
                                                 ensemble_.draws[0], from, until_, question_, {1e-9, 1e-14}))
                            .first;
            }
            return found->second.failure(source.place, stage, substage);
        });
    }

  private:
    scenario::Scenario scenario_;
    const mites::Ensemble& ensemble_;
    double at_;
    double until_;
    branching::Question question_;
    std::map<double, Swept> swept_;
};

/// Four standard errors of a share among particles of this effective number; the exact side averages entry
/// times over half days, which is good to 0.2 points.
inline double allowed(double share, const Belief& belief) {
    return 4 * std::sqrt(std::max(share * (1 - share), 1e-3) / belief.effective_particles) + 0.002;
}

/// Value and slope at 0 of the polynomial through f(0), f(h), f(2h), f(3h).
inline double slope_at_zero(const std::array<double, 4>& f, double h) {
    return (-11 * f[0] + 18 * f[1] - 9 * f[2] + 2 * f[3]) / (6 * h);
}

}  // namespace mitefall::belief::exact
