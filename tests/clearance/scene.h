#pragma once

#include <algorithm>

#include "clearance/outlook.h"
#include "scenario/actions.h"
#include "shared/fixtures.h"

// Three tubs in a room, mites in the first, treated twice, and then the checks of the test.
namespace mitefall::clearance {

using mites::MiteParameters;
using mites::Stage;
using records::CheckMethod;
using scenario::Event;
using scenario::PlaceIndex;
using scenario::Scenario;

inline constexpr PlaceIndex sighted = 1, neighbour = 2, other = 3;
inline constexpr double last_treatment = 7;  // days

inline const mites::Ensemble& ensemble() { return fixtures::small_ensemble(); }

/// Eight draws, all of them `draw`: one parameter set in the shape of an ensemble.
inline mites::Ensemble only(const MiteParameters& draw) {
    return {ensemble().fixed, draw, fixtures::block_of(draw)};
}

inline Scenario treated() {
    using fixtures::room, fixtures::tub;
    Scenario scenario;
    scenario.places = {room("room"), tub("sighted", 0), tub("neighbour", 0), tub("other", 0)};
    for (const double day : {0.0, last_treatment}) {
        for (PlaceIndex p = sighted; p <= other; ++p) {
            for (const auto method : {records::Method::spray_animal, records::Method::change_substrate,
                                      records::Method::spray_bedding})
                add_action(scenario, {method, p, day, units::milligrams_per_litre(200), 1, day + 7},
                           ensemble().fixed);
        }
    }
    return scenario;
}

inline Scenario checked(std::vector<double> days, CheckMethod method = CheckMethod::look_over,
                        std::vector<PlaceIndex> places = {sighted, neighbour, other}) {
    std::vector<Event> checks;
    for (const double day : days) {
        for (const PlaceIndex place : places) checks.push_back({day, scenario::clean_check(place, method)});
    }
    return with_events(treated(), std::move(checks));
}

inline forecast::KnownStart few_mites() {
    return {{sighted, Stage::egg, 6},
            {sighted, Stage::adult_feeding_1, 2},
            {neighbour, Stage::adult_seeking_1, 1}};
}

inline Standing standing(const Scenario& scenario, const mites::Ensemble& draws, double today) {
    Standing known;
    known.scenario = &scenario;
    known.ensemble = &draws;
    known.start = few_mites();
    known.from = 0;
    known.today = today;
    return known;
}

inline double risk_today(const Scenario& scenario, double today, const mites::Ensemble& draws = ensemble()) {
    return sure_of_collection(standing(scenario, draws, today))->risk.mean;
}

}  // namespace mitefall::clearance
