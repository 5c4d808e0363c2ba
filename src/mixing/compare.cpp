#include "mixing/compare.h"

namespace mitefall::mixing {
namespace {

constexpr double rounding = 1 + 1e-9;  // a mix made to a limit may miss it in the last bits

Standing stand(units::Strength strength, const Comparison& range) {
    if (strength * rounding < range.weakest) return Standing::weaker;
    return strength <= range.limit * rounding ? Standing::published : Standing::above;
}

}  // namespace

Comparison compare_strength(units::Strength strength, const evidence::Tables& tables) {
    Comparison range;
    range.weakest = tables.strength("published_strength_low").value;
    range.strongest = tables.strength("published_strength_high").value;
    range.limit = tables.strength("strength_without_caution").value;
    range.multiple = strength / range.strongest;
    range.standing = stand(strength, range);
    range.judged = strength;
    return range;
}

Comparison compare_strength(const MeasuredStrength& strength, const evidence::Tables& tables) {
    const Comparison meant = compare_strength(strength.nominal, tables);
    if (!(strength.high > strength.nominal) || meant.standing == Standing::above) return meant;
    Comparison most = compare_strength(strength.high, tables);
    most.perhaps = most.standing == Standing::above;
    return most.perhaps ? most : meant;
}

}  // namespace mitefall::mixing
