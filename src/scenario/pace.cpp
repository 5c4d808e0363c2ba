#include "scenario/pace.h"

#include <fmt/format.h>

#include <algorithm>

#include "mites/rates.h"

namespace mitefall::scenario {
namespace {

/// How often a mite of a stage changes, and what that hangs on. Stages that are pure delays are followed
/// exactly, however fast (docs/decisions/0013).
struct StagePace {
    double changes = 0;  ///< per day
    std::string_view because_of;
};

StagePace pace_of(mites::Stage stage, const mites::Ensemble& ensemble, const mites::MiteParameters& draw,
                  const records::Climate& climate) {
    const mites::Activity activity = mites::activity_of(stage);
    const double walking = draw.leaving_rate * std::max(1.0, ensemble.fixed.neighbours) + draw.entering_rate +
                           draw.room_crossing_rate;
    const mites::StageRates rates = mites::stage_rates(stage, ensemble.fixed, draw, climate);
    if (activity == mites::Activity::adult_laying)
        return {rates.advance + walking + mites::laying_rate(ensemble.fixed, draw, climate),
                "laying_time, eggs_per_meal, unfed_life_q10"};
    if (!mites::is_seeking(activity)) return {};
    return {rates.advance + walking + mites::finding_rate(stage, draw),
            stage == mites::Stage::protonymph_seeking
                ? "unfed_protonymph_life, unfed_life_q10, unfed_life_dry_factor"
                : "unfed_adult_life, unfed_life_q10, unfed_life_dry_factor"};
}

base::Result<void> check_climate(const mites::Ensemble& ensemble, const mites::MiteParameters& draw,
                                 const records::Climate& climate) {
    for (const mites::Stage stage : mites::all_stages) {
        const StagePace pace = pace_of(stage, ensemble, draw, climate);
        if (pace.changes <= fastest_pace) continue;
        return base::fail(
            base::invalid("mites would change faster than can be followed",
                          fmt::format("{}: {:.0f} changes a day at {:.1f} C", to_text(stage), pace.changes,
                                      units::in_celsius(climate.day)),
                          fmt::format("at most {:.0f} a day", fastest_pace),
                          fmt::format("set a slower pace with {}, or a lower temperature", pace.because_of)));
    }
    return {};
}

}  // namespace

base::Result<void> check_pace(const Scenario& scenario, const mites::Ensemble& ensemble) {
    std::vector<records::Climate> climates;
    const auto note = [&](const records::Climate& climate) {
        if (std::find(climates.begin(), climates.end(), climate) == climates.end())
            climates.push_back(climate);
    };
    for (const Place& place : scenario.places) note(place.climate);
    for (const Event& event : scenario.events) {
        if (const auto* const change = std::get_if<ClimateChange>(&event.what)) note(change->climate);
    }
    for (const records::Climate& climate : climates) {
        if (auto good = check_climate(ensemble, ensemble.mode, climate); !good) return good;
        for (const mites::MiteParameters& draw : ensemble.draws) {
            if (auto good = check_climate(ensemble, draw, climate); !good) return good;
        }
    }
    return {};
}

}  // namespace mitefall::scenario
