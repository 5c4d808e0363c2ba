#include "clearance/release.h"

#include <algorithm>
#include <cmath>

#include "base/contract.h"
#include "scenario/actions.h"

namespace mitefall::clearance {
namespace {

using mites::MiteParameters;

Standing one_founder(const ReleaseRequest& request) {
    Standing standing;
    standing.scenario = request.scenario;
    standing.ensemble = request.ensemble;
    standing.start = forecast::KnownStart{{request.place, mites::Stage::adult_feeding_1, 1}};
    standing.from = request.arrived;
    standing.today = request.today;
    standing.blocks = request.blocks;
    return standing;
}

/// ln(1 - c + c exp(x)), exact where x is close to 0.
double log_mixture(double c, double x) { return std::log1p(c * std::expm1(x)); }

/// What one founder's line does, for an animal that may have brought several or none.
Draws may_have_brought(const Draws& one, std::span<const MiteParameters> parameters) {
    Draws draws = one;
    for (std::size_t i = 0; i < one.prior.size(); ++i) {
        const double carries = parameters[i].arrival_carries;
        const double founders = parameters[i].arrival_founders;
        const double both = founders * (one.log_clear[i] + one.log_clean[i]);
        draws.log_clean[i] = log_mixture(carries, founders * one.log_clean[i]);
        draws.log_clear[i] = std::min(0.0, log_mixture(carries, both) - draws.log_clean[i]);
    }
    return draws;
}

std::vector<Reached> reach(const std::vector<ReleasePoint>& points, std::span<const double> levels,
                           double not_before) {
    std::vector<Reached> reached;
    for (const double level : levels) {
        Reached days{level, {}, {}};
        for (const ReleasePoint& point : points) {
            if (point.time < not_before) continue;
            if (!days.at_mean && point.none.risk.mean <= 1 - level) days.at_mean = point.time;
            if (!days.at_cautious && point.none.risk.p90 <= 1 - level) days.at_cautious = point.time;
        }
        reached.push_back(days);
    }
    return reached;
}

double prior_of(const ReleaseRequest& request, std::size_t draws) {
    double none = 0;
    for (std::size_t i = 0; i < draws; ++i)
        none += (1 - request.ensemble->draws[i].arrival_carries) / static_cast<double>(draws);
    return none;
}

scenario::Scenario with_rounds_to_come(const ReleaseRequest& request) {
    std::vector<scenario::Event> checks;
    for (int round = 0; round < request.rounds.count; ++round) {
        for (const scenario::PlaceIndex place : request.rounds.places)
            checks.push_back({request.rounds.first + round * request.rounds.interval,
                              scenario::clean_check(place, request.rounds.method)});
    }
    return with_events(*request.scenario, std::move(checks));
}

}  // namespace

std::optional<Release> plan_release(const ReleaseRequest& request, std::span<const double> levels) {
    base::expects(request.scenario != nullptr && request.ensemble != nullptr, "a scenario and its draws");
    base::expects(request.rounds.first >= request.today && request.rounds.interval > 0,
                  "checks to come are not in the past");
    const Standing standing = one_founder(request);
    const scenario::Scenario scenario = with_rounds_to_come(request);
    Enquiry enquiry(standing, request.progress, 2 + 2 * static_cast<std::size_t>(request.rounds.count));
    Release release;
    const auto add = [&](const scenario::Scenario& looked, double time) {
        const auto one = enquiry.draws_at(looked, time);
        if (!one) return false;
        release.prior = prior_of(request, one->prior.size());
        release.points.push_back(
            {time, sureness_of(may_have_brought(*one, std::span(request.ensemble->draws)))});
        return true;
    };
    if (!add(*request.scenario, request.today)) return std::nullopt;
    for (int round = 0; round < request.rounds.count; ++round) {
        if (!add(scenario, request.rounds.first + round * request.rounds.interval)) return std::nullopt;
    }
    release.by_chance = reach(release.points, levels, request.today);
    release.no_sooner = reach(release.points, levels, request.arrived + request.least);
    return release;
}

}  // namespace mitefall::clearance
