#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mixing/compare.h"
#include "mixing/dose.h"
#include "mixing/round_batch.h"
#include "mixing/thinning.h"
#include "safety/check.h"
#include "worklist/shopping.h"

// One bottle of spray: how it is made, how strong it is, and what a misting of it leaves on each animal.
namespace mitefall::worklist {

/// What a light misting would leave on one animal, and whether it may be given.
struct MistOnAnimal {
    records::AnimalId animal;
    std::optional<mixing::Spread<units::Dose>> dose;  ///< none without a valid weight
    std::optional<units::Mass> mass;
    safety::Verdict verdict;
};

struct MixSheet {
    mixing::Recipe recipe;
    std::optional<mixing::Measured> measured;  ///< how to measure; none for a recipe already followed
    std::optional<mixing::MeasuredStrength> resulting;  ///< with its range
    std::string cannot_measure;
    std::optional<mixing::RoundBatch> round;  ///< easier to measure, never stronger than anything published
    bool steps_held_back = false;             ///< until what stands above them has been read
    mixing::Comparison comparison;            ///< of the strongest it may be
    /// How a recipe already followed is made weaker, where it may be above everything published and the stock
    /// is told to be a plain solution.
    mixing::Thinning thinned;
    units::Day discard_by;
    int wetting_drops = 0;
    units::Dose injected;  ///< what veterinarians inject: to be shown beside what a misting leaves
    std::vector<MistOnAnimal> animals;  ///< highest dose first, then those of unknown weight
};

/// How to make `batch` of strength `target` with what is on the bench, on the day `today`.
[[nodiscard]] base::Result<MixSheet> make_mix_sheet(const Bench& bench, units::Volume batch,
                                                    units::Strength target, units::Day today,
                                                    const evidence::Tables& tables);

/// Looks for a round amount that is easier to measure than the batch of the sheet, in the units of `system`.
void propose_round(MixSheet& sheet, const Bench& bench, units::UnitSystem system,
                   const evidence::Tables& tables);

/// A recipe a keeper has followed. Errors: how far the stock and the total may be off as they were written.
struct FollowedRecipe {
    units::Volume stock;
    units::Volume stock_error;
    units::Volume total;
    units::Volume total_error;
};
/// How strong it is, and how strong or weak it may be.
[[nodiscard]] base::Result<MixSheet> judge_recipe(const Bench& bench, const FollowedRecipe& recipe,
                                                  units::Day today, const evidence::Tables& tables);

/// Takes away all that says how to make it, and tells so: of a strength above everything published nobody
/// gets the steps who has not read what that means. A round amount that is measured more closely, and is not
/// above, stays proposed.
void hold_back_steps(MixSheet& sheet);

/// Every animal of the collection, each with its verdict for being sprayed at that strength.
[[nodiscard]] std::vector<MistOnAnimal> mist_on_animals(const safety::Case& with, units::Strength strength,
                                                        units::Day today);

}  // namespace mitefall::worklist
