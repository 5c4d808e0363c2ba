#pragma once

#include "questions/option.h"
#include "service/keeper.h"

namespace mitefall::questions {

/// What a chance is an average over. Typed only: pages and commands show the same number of the same question
/// with the same draws.
struct Draws {
    std::size_t draws = service::usual_draws;
    std::uint64_t seed = service::PlanOptions{}.seed;
};

template <class O>
[[nodiscard]] std::vector<Option<O>> draws_of() {
    std::vector<Option<O>> options;
    options.push_back(whole<O>({"", "--draws"}, &O::draws, Limits{8, 65536},
                               "Parameter draws, rounded up to a multiple of 8"));
    options.back().set = [](O& into, const Value& said) -> base::Result<void> {
        into.draws = service::whole_blocks(std::get<std::uint64_t>(said));
        return {};
    };
    options.push_back(whole<O>({"", "--seed"}, &O::seed, std::nullopt, "Same seed, same answer"));
    return options;
}

[[nodiscard]] inline Question<Draws> tonight() {
    return {"tonight", "After a sighting: exposure, verdicts, plans, mixing and today's work",
            draws_of<Draws>()};
}

[[nodiscard]] inline Question<Draws> origin() {
    return {"origin", "How the mites came in, most likely, and where they are", draws_of<Draws>()};
}

}  // namespace mitefall::questions
