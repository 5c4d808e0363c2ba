#pragma once

#include "mites/parameters.h"
#include "mites/stages.h"
#include "records/vocabulary.h"
#include "scenario/scenario.h"

namespace mitefall::scenario {

struct SeenRange {
    double low = 1;
    double high = 1;
};

/// The number of mites a sighting stands for. "more" than 50 is open above; 500 is our assumption (captive
/// snakes carry 10 to 2,200, Miranda et al. 2017). "none" is no sighting and is taken as the least one could
/// be.
[[nodiscard]] constexpr SeenRange range_of(records::SeenCount count) {
    switch (count) {
        case records::SeenCount::none:
        case records::SeenCount::one: return {1, 1};
        case records::SeenCount::few: return {2, 10};
        case records::SeenCount::many: return {11, 50};
        case records::SeenCount::masses: return {51, 500};
    }
    return {};
}

/// Chance that a check shows one mite of an activity; zero for those out of sight.
[[nodiscard]] double chance_to_be_seen(const CleanCheck& check, mites::Activity activity,
                                       const mites::FixedParameters& fixed,
                                       const mites::MiteParameters& draw);

}  // namespace mitefall::scenario
