#pragma once

#include "questions/option.h"

namespace mitefall::questions {

struct VerdictOptions {
    std::optional<units::Strength> strength;  ///< default: the one a plan uses
    std::string animal;                       ///< empty: all of them
};

[[nodiscard]] inline Question<VerdictOptions> verdicts() {
    using O = VerdictOptions;
    return {"verdicts",
            "What each animal can be given, and why not",
            {strength<O>({"strength", "--strength"}, &O::strength,
                         "Strength of the ivermectin spray (default: the one a plan uses)"),
             text<O>({"animal", "--animal"}, &O::animal, "Only this animal")}};
}

}  // namespace mitefall::questions
