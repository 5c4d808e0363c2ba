#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "records/method.h"
#include "records/names.h"
#include "scenario/scenario.h"

// What is on record beside the events of a scenario: who looked for mites, and who came from outside.
namespace mitefall::scenario {

enum class LookedAt { animal, nest, both };

/// One look on record: a check or a sighting, with or without a find.
struct Look {
    PlaceIndex place = 0;
    double time = 0;             ///< days
    std::size_t next_event = 0;  ///< position of the first event of the scenario that happened after it
    LookedAt where = LookedAt::both;
    records::SeenCount seen = records::SeenCount::none;
    records::CheckMethod method = records::CheckMethod::look_over;
};

[[nodiscard]] constexpr bool is_find(const Look& look) { return look.seen != records::SeenCount::none; }

/// An animal that came from outside.
struct ArrivalOnRecord {
    records::AnimalId animal;
    std::string name;
    PlaceIndex place = 0;
    double time = 0;        ///< days
    std::size_t event = 0;  ///< its AnimalJoins in the scenario; the number of events if it has none
};

/// Contact with animals elsewhere.
struct OutsideOnRecord {
    records::FactId entry = 0;
    records::OutsideKind what = records::OutsideKind::show;
    std::vector<PlaceIndex> places;  ///< it may have reached, each alike; at least one
    double time = 0;                 ///< days
};

}  // namespace mitefall::scenario
