#include "formats/casefile/parameters.h"

#include <algorithm>
#include <array>

namespace mitefall::formats {
namespace {

using mites::MiteParameters;

constexpr Range rate_range{0, 100, false, false};      // per day
constexpr Range time_range{0.05, 1000, false, false};  // days
constexpr Range shape_range{1, 64, false, true};
// A chance of 1 to see a mite leaves nothing to forecast once a check is said to have seen none.
constexpr Range detection_range{0, 0.999, false, false};

struct BoundsRow {
    std::string_view key;
    ParameterBounds bounds;
};

/// Every drawn parameter that is not a plain share.
constexpr std::array bounds_rows{
    BoundsRow{"unfed_protonymph_life", {ParameterKind::time, time_range}},
    BoundsRow{"unfed_adult_life", {ParameterKind::time, time_range}},
    BoundsRow{"adult_feeding_time", {ParameterKind::time, time_range}},
    BoundsRow{"laying_time", {ParameterKind::time, time_range}},
    BoundsRow{"residual_half_life", {ParameterKind::time, time_range}},
    BoundsRow{"host_finding_protonymph", {ParameterKind::rate, rate_range}},
    BoundsRow{"host_finding_adult", {ParameterKind::rate, rate_range}},
    BoundsRow{"leaving_rate", {ParameterKind::rate, rate_range}},
    BoundsRow{"entering_rate", {ParameterKind::rate, rate_range}},
    BoundsRow{"room_crossing_rate", {ParameterKind::rate, rate_range}},
    BoundsRow{"damp_hazard_home", {ParameterKind::rate, rate_range}},
    BoundsRow{"damp_hazard_published", {ParameterKind::rate, rate_range}},
    BoundsRow{"unfed_life_q10", {ParameterKind::ratio, {0.1, 20, false, false}}},
    BoundsRow{"unfed_life_dry_factor", {ParameterKind::ratio, {0.01, 1, false, false}}},
    BoundsRow{"eggs_per_meal", {ParameterKind::ratio, {0, 1000, false, false}}},
    BoundsRow{"meals_per_life", {ParameterKind::ratio, {0, 1000, false, false}}},
    BoundsRow{"detection_light", {ParameterKind::share, detection_range}},
    BoundsRow{"detection_light_soak", {ParameterKind::share, detection_range}},
    BoundsRow{"detection_light_wipe", {ParameterKind::share, detection_range}},
    BoundsRow{"detection_paper_trap", {ParameterKind::share, detection_range}},
    BoundsRow{"arrival_founders", {ParameterKind::ratio, {0, 1000, false, false}}},
};

std::string keys_of(ParameterKind kind) {
    std::string list;
    for (const mites::ParameterField& field : mites::parameter_fields()) {
        if (bounds_of(field.key).kind == kind) list += ", " + std::string(field.key);
    }
    return list;
}

template <class F>
void for_each_set(mites::Ensemble& ensemble, F set) {
    set(ensemble.mode);
    for (MiteParameters& draw : ensemble.draws) set(draw);
}

void read_parameter(Fields& fields, const std::string& key, mites::Ensemble& ensemble) {
    if (key == "erlang_shape") {
        const auto shape = static_cast<int>(fields.number(key, shape_range));
        for_each_set(ensemble, [&](MiteParameters& set) { set.erlang_shape = shape; });
        return;
    }
    const bool quantile = key == "sighting_quantile";
    const mites::ParameterMember member =
        quantile ? &MiteParameters::sighting_quantile : mites::find_parameter(key);
    if (member == nullptr) {
        return fields.refuse(key, "there is no such parameter", key,
                             "the drawn parameters listed by \"parameters\"");
    }
    const double value = fields.number(key, quantile ? share_range : bounds_of(key).range);
    for_each_set(ensemble, [&](MiteParameters& set) { set.*member = value; });
}

}  // namespace

ParameterBounds bounds_of(std::string_view key) {
    const auto found = std::find_if(bounds_rows.begin(), bounds_rows.end(),
                                    [&](const BoundsRow& row) { return row.key == key; });
    return found == bounds_rows.end() ? ParameterBounds{} : found->bounds;
}

scenario::Amount read_amount(Fields& fields, std::string_view key, ParameterKind kind, Range range) {
    const Json* const value = fields.need(key);
    if (value == nullptr) return {};
    if (!value->is_string()) return scenario::Amount::number(fields.number(key, range));
    const auto name = value->get<std::string>();
    const mites::ParameterMember member = mites::find_parameter(name);
    if (member != nullptr && bounds_of(name).kind == kind) return scenario::Amount::drawn(member);
    fields.refuse(key, "no parameter that fits here", name.substr(0, 60),
                  "a number " + range.text() + keys_of(kind));
    return {};
}

void read_parameters(const Json& object, const std::string& pointer, Fault& fault,
                     mites::Ensemble& ensemble) {
    Fields fields(object, pointer, fault);
    if (!object.is_object()) return;
    for (const auto& item : object.items()) read_parameter(fields, item.key(), ensemble);
}

}  // namespace mitefall::formats
