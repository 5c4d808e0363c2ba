#pragma once

#include <compare>
#include <optional>
#include <span>

#include "mixing/bench.h"
#include "units/text.h"

// A batch of a round amount, proposed where the one that is needed is awkward to measure.
namespace mitefall::mixing {

/// What there is to measure and to read for one batch. Less is better, the first members first.
struct Trouble {
    bool rough = false;  ///< coarser than is wanted
    int steps = 0;       ///< measures, those of a pre-dilution too
    int hard_marks = 0;  ///< measures that end at a mark which has to be counted out

    friend auto operator<=>(const Trouble&, const Trouble&) = default;
};
[[nodiscard]] Trouble trouble_of(const Measured& measured);

/// Rough, more than two measures, or a mark that has to be counted out.
[[nodiscard]] bool is_awkward(const Trouble& trouble);

/// On a tool with more than twenty marks only every fifth is found without counting (assumption); spoons and
/// tools of fewer marks are read at each.
[[nodiscard]] bool is_hard_to_read(const Measure& measure);

struct RoundBatch {
    Recipe recipe;
    Measured measured;
    units::Volume left_over;  ///< beyond what is needed
};

/// What is needed, and what it is made of and with.
struct RoundRequest {
    Recipe needed;
    const Measured* way = nullptr;  ///< to measure it; null: there is none
    units::Strength stock;
    std::span<const Tool> tools;
    std::optional<units::Volume> bottle = {};  ///< most a batch may hold
    units::UnitSystem system = units::UnitSystem::metric;
};

/// The larger round amount with the least trouble, of those the one that leaves least over; never less than
/// is needed and never above what the bottle holds. At most twice what is needed; where that cannot be
/// measured finely, at most twice the least round amount that can, ten times what is needed and 20 L
/// (assumptions). None: what is
/// needed is not awkward, nothing is better, or all that is may be stronger than anything published.
[[nodiscard]] std::optional<RoundBatch> easier_round_batch(const RoundRequest& request,
                                                           const evidence::Tables& tables);

}  // namespace mitefall::mixing
