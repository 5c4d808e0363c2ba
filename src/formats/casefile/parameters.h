#pragma once

#include "formats/casefile/fields.h"
#include "mites/parameters.h"
#include "scenario/scenario.h"

namespace mitefall::formats {

/// What a parameter measures: where one may stand for another.
enum class ParameterKind { share, rate, time, ratio };

/// What a case may set a drawn parameter to. Wider than the evidence, yet narrow enough to compute with.
struct ParameterBounds {
    ParameterKind kind = ParameterKind::share;
    Range range = share_range;
};
/// `key` must be that of a drawn parameter.
[[nodiscard]] ParameterBounds bounds_of(std::string_view key);

/// A number within `range`, or the key of a parameter of that kind.
[[nodiscard]] scenario::Amount read_amount(Fields& fields, std::string_view key, ParameterKind kind,
                                           Range range);

/// Puts the parameters of a case into the mode and every draw.
void read_parameters(const Json& object, const std::string& pointer, Fault& fault, mites::Ensemble& ensemble);

}  // namespace mitefall::formats
