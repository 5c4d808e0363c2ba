#include "clearance/notice.h"

#include <cmath>

#include "base/contract.h"
#include "scenario/actions.h"

namespace mitefall::clearance {
namespace {

/// Of an interval between two looks so many days are tried, in the middle of equal parts.
constexpr int phases = 3;

/// Sums over entrances and phases, per draw.
struct Sums {
    std::vector<double> noticed, alive;
};

Standing one_female(const NoticeRequest& request, const Entrance& at) {
    Standing standing;
    standing.scenario = request.scenario;
    standing.ensemble = request.ensemble;
    standing.start = forecast::KnownStart{{at.place, mites::Stage::adult_seeking_1, 1}};
    standing.from = standing.today = request.from;
    standing.blocks = request.blocks;
    return standing;
}

std::vector<scenario::Event> looks(const NoticeRequest& request, const Entrance& at, const Routine& routine,
                                   int phase) {
    std::vector<scenario::Event> events;
    const double first = routine.every * (phase + 0.5) / phases;
    for (double time = first; time <= request.within; time += routine.every)
        events.push_back({request.from + time, scenario::clean_check(at.place, routine.method)});
    return events;
}

void add_to(std::vector<double>& sums, std::size_t draw, std::size_t draws, double value) {
    sums.resize(draws, 0.0);
    sums[draw] += value;
}

/// Of each draw: not clear, and with `looked` not clean and not clear.
bool add(const NoticeRequest& request, const Entrance& at, const Routine& routine, const Draws& unseen,
         const Standing& standing, Sums& sums) {
    const double end = request.from + request.within;
    for (int phase = 0; phase < phases; ++phase) {
        const auto events = looks(request, at, routine, phase);
        Enquiry enquiry(standing, request.progress, 1);
        const auto looked = events.empty() ? std::optional(unseen)
                                           : enquiry.draws_at(with_events(*request.scenario, events), end);
        if (!looked) return false;
        const std::size_t draws = looked->log_clean.size();
        for (std::size_t i = 0; i < draws; ++i) {
            const double alive = -std::expm1(unseen.log_clear[i]);
            const double missed = std::exp(looked->log_clean[i]) * -std::expm1(looked->log_clear[i]);
            add_to(sums.alive, i, draws, at.weight * alive);
            add_to(sums.noticed, i, draws, at.weight * std::max(0.0, alive - missed));
        }
    }
    return true;
}

base::Band chance_of(const Sums& sums) {
    std::vector<double> chances;
    double noticed = 0;
    double alive = 0;
    for (std::size_t i = 0; i < sums.alive.size(); ++i) {
        noticed += sums.noticed[i];
        alive += sums.alive[i];
        if (sums.alive[i] > 0) chances.push_back(sums.noticed[i] / sums.alive[i]);
    }
    if (chances.empty()) return {};
    const base::Band band = base::band_of(std::move(chances));
    return base::band_between(band.p10, noticed / alive, band.p90);
}

}  // namespace

std::optional<std::vector<Noticed>> notice(const NoticeRequest& request) {
    base::expects(request.scenario != nullptr && request.ensemble != nullptr, "a scenario and its draws");
    base::expects(!request.entrances.empty() && request.within > 0, "a place to come in by, and a time");
    std::vector<Sums> sums(request.routines.size());
    for (const Entrance& at : request.entrances) {
        const Standing standing = one_female(request, at);
        Enquiry enquiry(standing, request.progress, 1);
        const auto unseen = enquiry.draws_at(*request.scenario, request.from + request.within);
        if (!unseen) return std::nullopt;
        for (std::size_t i = 0; i < request.routines.size(); ++i) {
            base::expects(request.routines[i].every > 0, "looks have days between them");
            if (!add(request, at, request.routines[i], *unseen, standing, sums[i])) return std::nullopt;
        }
    }
    std::vector<Noticed> noticed;
    for (std::size_t i = 0; i < request.routines.size(); ++i)
        noticed.push_back({request.routines[i], chance_of(sums[i])});
    return noticed;
}

}  // namespace mitefall::clearance
