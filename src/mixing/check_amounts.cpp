#include "mixing/check_amounts.h"

#include <fmt/format.h>

#include <cmath>

#include "units/text.h"

namespace mitefall::mixing {
namespace {

using base::Error;
using base::invalid;

bool is_positive(double x) { return x > 0 && std::isfinite(x); }

std::optional<Error> refuse(double x, std::string_view name, std::string_view unit) {
    if (is_positive(x)) return std::nullopt;
    return invalid(fmt::format("the {} is not a positive number", name), fmt::format("{} {}", x, unit),
                   "greater than zero and finite", fmt::format("correct the {}", name));
}

}  // namespace

std::optional<Error> refuse_volume(units::Volume volume, std::string_view name) {
    return refuse(units::in_millilitres(volume), name, "mL");
}

std::optional<Error> refuse_strength(units::Strength strength, std::string_view name) {
    if (auto fault = refuse(units::in_milligrams_per_litre(strength), name, "mg/L")) return fault;
    if (strength <= units::percent_mass_in_volume(100)) return std::nullopt;
    return invalid(fmt::format("the {} is stronger than anything can be", name), units::show(strength),
                   "100 % w/v (1,000,000 mg/L)", "check the number and the unit on the label");
}

std::optional<Error> refuse_body_mass(units::Mass mass) {
    return refuse(units::in_grams(mass), "body mass", "g");
}

std::optional<Error> refuse_area(units::Area area, std::string_view name) {
    const double cm2 = units::in_square_centimetres(area);
    if (cm2 >= 0 && std::isfinite(cm2)) return std::nullopt;
    return invalid(fmt::format("the {} is not a possible area", name), fmt::format("{} cm2", cm2),
                   "zero or more, and finite", fmt::format("correct the {}", name));
}

}  // namespace mitefall::mixing
