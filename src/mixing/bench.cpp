#include "mixing/bench.h"

#include "mixing/measure_search.h"

namespace mitefall::mixing {

using base::fail;
using base::Result;

namespace {

Result<Measured> in_one_step(const Recipe& recipe, units::Strength stock, const Measurement& measured) {
    auto resulting = strength_of(stock, measured, recipe.total);
    if (!resulting) return fail(resulting.error());
    return Measured{std::nullopt, measured, *resulting};
}

}  // namespace

Result<Measured> measure_batch(const Recipe& recipe, units::Strength stock, std::span<const Tool> tools,
                               const Accuracy& accuracy) {
    Effort effort;
    return measure_batch(recipe, stock, tools, accuracy, effort);
}

Result<Measured> measure_batch(const Recipe& recipe, units::Strength stock, std::span<const Tool> tools,
                               const Accuracy& accuracy, Effort& effort) {
    if (auto sound = check_measuring(recipe.stock, tools, accuracy); !sound) return fail(sound.error());
    const auto measured = measure(recipe.stock, tools, accuracy, effort);
    if (measured && !measured->rough) return in_one_step(recipe, stock, *measured);
    if (auto diluted = dilute_first(recipe, stock, tools, accuracy.wanted, effort))
        return std::move(*diluted);
    if (effort.is_spent()) return fail(too_many_marks());
    if (!measured) return fail(measured.error());
    return in_one_step(recipe, stock, *measured);
}

}  // namespace mitefall::mixing
