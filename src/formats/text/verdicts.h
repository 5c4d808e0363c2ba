#pragma once

#include <string>
#include <vector>

#include "records/collection.h"
#include "safety/verdict.h"

namespace mitefall::formats {

struct VerdictDetail {
    bool reasons = false;
    bool every_method = false;  ///< not the usual ones alone
    bool every_animal = true;   ///< a row each, for those too that may be given what most may
};

/// One row per animal, those who may be given least first, one column per method; then the reasons of every
/// refusal, the gravest first.
[[nodiscard]] std::string verdicts_text(const std::vector<safety::Verdict>& verdicts,
                                        const records::Collection& collection, VerdictDetail detail);

}  // namespace mitefall::formats
