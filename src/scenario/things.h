#pragma once

#include <vector>

#include "records/thing.h"
#include "scenario/scenario.h"

namespace mitefall::scenario {

/// A thing of a place that was taken out and freed of mites, or thrown away.
struct ThingDone {
    bool harbours = true;
    records::ThingMethod method = records::ThingMethod::wash_hot;
    friend bool operator==(const ThingDone&, const ThingDone&) = default;
};

/// Of more, those that harbour most count: together they hold no more of a nest than a clean tub leaves
/// behind.
inline constexpr std::size_t most_things = 5;

/// Appends what was done with things of one place at one moment, which is not before the last event: each
/// holds its part of the nest by itself (`nest_in_thing`, `nest_on_thing`), and that part dies. What is only
/// sprayed keeps its eggs.
void add_things(Scenario& scenario, double time, PlaceIndex place, std::vector<ThingDone> things,
                const mites::FixedParameters& fixed);

}  // namespace mitefall::scenario
