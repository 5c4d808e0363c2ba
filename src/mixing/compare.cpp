#include "mixing/compare.h"

#include "units/within.h"

namespace mitefall::mixing {
namespace {

Standing stand(units::Strength strength, const Comparison& range) {
    if (!units::is_within(strength, range.limit)) return Standing::above;
    return units::is_within(range.weakest, strength) ? Standing::published : Standing::weaker;
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
