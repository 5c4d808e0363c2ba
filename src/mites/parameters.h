#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "evidence/tables.h"
#include "records/method.h"
#include "safety/wet_book.h"
#include "units/climate.h"

namespace mitefall::mites {

/// Which temperature law drives development.
enum class DevelopmentForm {
    degree_hours,  ///< straight line through the published durations at 20 and 30 C (default)
    log_linear,    ///< d20 * (d30 / d20)^((T - 20) / 10)
    gallinae,      ///< thresholds and thermal constants of Dermanyssus gallinae
};

/// Rate of development through one stage, per day, at one temperature.
struct Development {
    double hours_at_20 = 0;  ///< published duration
    double hours_at_30 = 0;
    double gallinae_threshold = 0;     ///< C
    double gallinae_degree_hours = 0;  ///< C h
};

/// Chance that one contact with the outside brings a mite, by its kind.
struct OutsideChances {
    std::array<double, records::all_of<records::OutsideKind>().size()> by_kind{};
    [[nodiscard]] double of(records::OutsideKind kind) const {
        return by_kind.at(static_cast<std::size_t>(kind));
    }
    /// Into one of so many places, each alike and by itself: together it is the chance of the contact.
    [[nodiscard]] double into_one_of(std::size_t places, records::OutsideKind kind) const;
};
[[nodiscard]] OutsideChances outside_chances(const evidence::Tables& tables);

/// What is the same in every draw.
struct FixedParameters {
    Development egg, larva, protonymph, deutonymph;
    DevelopmentForm form = DevelopmentForm::degree_hours;
    double plateau_starts = 0;     ///< C
    double plateau_ends = 0;       ///< C
    double development_stops = 0;  ///< C
    double adult_reference = 0;    ///< C, at which feeding and laying times hold
    int unfed_shape = 0;
    double neighbours = 0;
    double light_infestation = 0;         ///< mites on the animal
    double published_strength_low = 0;    ///< mg/L
    double strength_without_caution = 0;  ///< mg/L; the published end of the effect of a spray
    double home_strength = 0;             ///< mg/L; the other end
    /// Days for which one dose kills from within, by method; 0 for those that do not.
    std::array<double, records::method_rows.size()> days_in_blood{};
    double thing_sprayed = 0;  ///< share of the mites on a thing that a spray for empty enclosures kills
    safety::WetLimits wet{};   ///< of paper that a course keeps damp
    OutsideChances outside{};
};

/// One draw of everything uncertain. Units are those of the evidence tables: days, per day, shares.
/// The member of a key of the evidence tables bears that key as its name.
struct MiteParameters {
    int erlang_shape = 0;
#define PARAMETER(key) double key = 0;
#define PARAMETER_DRAWN_WITH(key, other) double key = 0;
#include "mites/parameters.def"
#undef PARAMETER
#undef PARAMETER_DRAWN_WITH
    /// Position of the number seen within what the sighting says, 0 to 1; no evidence row.
    double sighting_quantile = 0.5;
};

[[nodiscard]] inline double& days_in_blood(FixedParameters& fixed, records::Method method) {
    return fixed.days_in_blood.at(static_cast<std::size_t>(method));
}
[[nodiscard]] inline double days_in_blood(const FixedParameters& fixed, records::Method method) {
    return fixed.days_in_blood.at(static_cast<std::size_t>(method));
}

using ParameterMember = double MiteParameters::*;

/// A drawn parameter: its evidence key and where it stands.
struct ParameterField {
    std::string_view key;
    ParameterMember member;
    /// The key with whose coordinate it is drawn, so that the two are high together and low together; its own
    /// if empty. That row is nowhere below this one.
    std::string_view drawn_with = {};
};

/// Every member that has a row in the evidence tables, except the Erlang shape. The order is part of the
/// seed: append only.
[[nodiscard]] std::span<const ParameterField> parameter_fields();

/// The member for an evidence key; nullptr where there is none.
[[nodiscard]] ParameterMember find_parameter(std::string_view key);

/// Draws are computed so many at a time.
inline constexpr std::size_t draws_per_block = 8;

/// The parameters as an ensemble of draws.
struct Ensemble {
    FixedParameters fixed;
    MiteParameters mode;                ///< every parameter at its most likely value
    std::vector<MiteParameters> draws;  ///< a multiple of draws_per_block; each block shares its shape
};

/// What needs no draw. Throws ContractViolation if the tables lack a key.
[[nodiscard]] FixedParameters fixed_parameters(const evidence::Tables& tables,
                                               DevelopmentForm form = DevelopmentForm::degree_hours);

/// Draws `count` parameter sets (a positive multiple of draws_per_block): Sobol points (Joe & Kuo 2008
/// directions, Boost) shifted by a vector from `seed` (Cranley & Patterson 1976), each coordinate through the
/// inverse of the triangular distribution on low, mode, high. The Erlang shape is stratified over blocks.
/// Throws ContractViolation if the tables lack a key or hold an impossible value.
[[nodiscard]] Ensemble draw_parameters(const evidence::Tables& tables, std::size_t count, std::uint64_t seed,
                                       DevelopmentForm form = DevelopmentForm::degree_hours);

/// Inverse of the triangular distribution; u in [0, 1], low <= mode <= high. Evans, Hastings & Peacock 2000,
/// chapter 40.
[[nodiscard]] double triangular_quantile(double low, double mode, double high, double u);

}  // namespace mitefall::mites
