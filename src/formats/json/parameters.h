#pragma once

#include <cstdint>

#include "evidence/tables.h"
#include "formats/json/json.h"
#include "mites/parameters.h"

namespace mitefall::formats {

/// What another program needs to compute the same answers: every parameter, the model in words, worked rates
/// and, with `with_draws`, every draw.
[[nodiscard]] Json parameters_json(const mites::Ensemble& ensemble, const evidence::Tables& tables,
                                   std::uint64_t seed, bool with_draws);

}  // namespace mitefall::formats
