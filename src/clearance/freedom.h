#pragma once

#include <optional>

// Spot checks of a large collection: the closed forms of herd-level freedom from infestation. They know
// nothing of time or of the lives of mites; the sweep gives the same numbers for a population that stands
// still (tests/clearance).
namespace mitefall::clearance {

/// Chance that none of n enclosures, drawn from N of which D have mites, shows any, when a check of one with
/// mites shows them with chance `sensitivity` and a clean one never does. Hypergeometric draw, binomial
/// detection: Cameron & Baldock 1998, Prev. Vet. Med. 34:1-17, with a specificity of 1.
/// Throws ContractViolation unless 0 <= n, D <= N and the sensitivity is a chance.
[[nodiscard]] double chance_all_look_clean(int enclosures, int checked, int with_mites, double sensitivity);

/// The fewest enclosures to check so that mites in `with_mites` of them show with at least this confidence;
/// empty where checking every one would not do.
[[nodiscard]] std::optional<int> enclosures_to_check(int enclosures, int with_mites, double sensitivity,
                                                     double confidence);

}  // namespace mitefall::clearance
