#pragma once

#include <optional>
#include <span>
#include <vector>

#include "mites/parameters.h"
#include "mites/stages.h"
#include "records/facts.h"

// How many days a mite spends in a part of its life, where it is as warm as this.
namespace mitefall::mites {

/// The parts of life that are told by days: seeking and feeding nymphs are one, and so are all adults.
enum class LifeStage { egg, larva, protonymph, deutonymph, adult };
[[nodiscard]] constexpr auto vocabulary_of(LifeStage) {
    using enum LifeStage;
    return base::vocabulary("stage", egg, "egg", larva, "larva", protonymph, "protonymph", deutonymph,
                            "deutonymph", adult, "adult");
}
inline constexpr auto all_life_stages = base::all_of<LifeStage>();
inline constexpr std::size_t life_stage_total = all_life_stages.size();

[[nodiscard]] constexpr LifeStage life_stage_of(Stage stage) {
    switch (activity_of(stage)) {
        case Activity::egg: return LifeStage::egg;
        case Activity::larva: return LifeStage::larva;
        case Activity::protonymph_seeking:
        case Activity::protonymph_feeding: return LifeStage::protonymph;
        case Activity::deutonymph: return LifeStage::deutonymph;
        case Activity::adult_seeking:
        case Activity::adult_feeding:
        case Activity::adult_laying: return LifeStage::adult;
    }
    return LifeStage::adult;
}

/// Days, of those that come through. Four in five are between `p10` and `p90`.
struct Duration {
    double mean = 0;
    double p10 = 0;
    double p90 = 0;
};

/// Days from the beginning of a part of life to its end, in an enclosure with an animal that was given no
/// drug; of an adult to her first eggs. One mite and the next, and one draw and the next, differ: the range
/// is over both. `weights`: of the draws, not negative, some above 0. nullopt where hardly any comes through
/// within a year: it is too cold.
[[nodiscard]] std::optional<Duration> duration_of(LifeStage stage, const FixedParameters& fixed,
                                                  std::span<const MiteParameters> draws,
                                                  std::span<const double> weights,
                                                  const records::Climate& climate);

}  // namespace mitefall::mites
