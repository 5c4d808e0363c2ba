#include "scenario/things.h"

#include <algorithm>
#include <utility>

namespace mitefall::scenario {
namespace {

using M = mites::MiteParameters;

bool is_sprayed(const ThingDone& thing) { return thing.method == records::ThingMethod::spray_and_air; }

/// Those that take most of the nest away come first.
auto turn_of(const ThingDone& thing) { return std::pair(!thing.harbours, is_sprayed(thing)); }

}  // namespace

void add_things(Scenario& scenario, double time, PlaceIndex place, std::vector<ThingDone> things,
                const mites::FixedParameters& fixed) {
    std::stable_sort(things.begin(), things.end(),
                     [](const ThingDone& a, const ThingDone& b) { return turn_of(a) < turn_of(b); });
    things.resize(std::min(things.size(), most_things));
    const bool has_eggs = !scenario.places.at(place).is_room;
    for (const ThingDone& thing : things) {
        const Amount part = Amount::drawn(thing.harbours ? &M::nest_in_thing : &M::nest_on_thing);
        const double killed = is_sprayed(thing) ? fixed.thing_sprayed : 1;
        scenario.events.push_back({time, Kill{place, mites::Reach::mobile_nest, part, killed}});
        if (has_eggs && !is_sprayed(thing))
            scenario.events.push_back({time, Kill{place, mites::Reach::eggs, part, 1}});
    }
}

}  // namespace mitefall::scenario
