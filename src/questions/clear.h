#pragma once

#include "questions/draws.h"

namespace mitefall::questions {

template <class O>
[[nodiscard]] std::vector<Option<O>> rounds_of_checks() {
    return {whole<O>({"rounds", "--rounds"}, &O::rounds, Limits{1, 26}, "Rounds of checks to look ahead"),
            whole<O>({"every_days", "--every"}, &O::interval_days, Limits{1, 60}, "Days from round to round")
                .in("days"),
            choice<O>({"by", "--by"}, &O::method, values_of<records::CheckMethod>(), "How to look")};
}

[[nodiscard]] inline Question<service::ClearanceOptions> clear() {
    using O = service::ClearanceOptions;
    return {"clear", "How sure are we that no mite is left, and when shall we be sure",
            together<O>(rounds_of_checks<O>(), draws_of<O>())};
}

[[nodiscard]] inline Question<service::ClearanceOptions> next_check() {
    return {"next-check", "The single checks that would tell most", draws_of<service::ClearanceOptions>()};
}

struct ReleaseOptions : service::ClearanceOptions {
    std::string animal;
};

[[nodiscard]] inline Question<ReleaseOptions> release() {
    using O = ReleaseOptions;
    return {"release", "When a new animal may leave quarantine",
            together<O>({text<O>({"animal", "ANIMAL"}, &O::animal, "The animal").required()},
                        together<O>(rounds_of_checks<O>(), draws_of<O>()))};
}

[[nodiscard]] inline Question<service::ClearanceOptions> keep_out() {
    return {"keep-out", "What keeps mites out, and how soon new ones would be noticed",
            draws_of<service::ClearanceOptions>()};
}

[[nodiscard]] inline Question<ReleaseOptions> handover() {
    using O = ReleaseOptions;
    return {"handover", "For whoever takes an animal: what was found and done, and how sure we are",
            together<O>({text<O>({"animal", "ANIMAL"}, &O::animal, "The animal").required()}, draws_of<O>())};
}

}  // namespace mitefall::questions
