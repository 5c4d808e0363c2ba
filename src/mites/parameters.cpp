#include "mites/parameters.h"

#include <fmt/format.h>
#include <algorithm>
#include <boost/random/sobol.hpp>
#include <boost/random/uniform_01.hpp>
#include <cmath>

#include "base/contract.h"
#include "base/random.h"
#include "records/outside.h"

namespace mitefall::mites {
namespace {

using base::expects;
using M = MiteParameters;

constexpr std::array fields{
#define PARAMETER(key) ParameterField{#key, &M::key},
#define PARAMETER_DRAWN_WITH(key, other) ParameterField{#key, &M::key, #other},
#include "mites/parameters.def"
#undef PARAMETER
#undef PARAMETER_DRAWN_WITH
};

constexpr bool are_in_the_tables() {
    return std::all_of(fields.begin(), fields.end(), [](const ParameterField& field) {
        return std::any_of(std::begin(evidence::known_keys), std::end(evidence::known_keys),
                           [&](const evidence::KnownKey& known) { return known.key == field.key; });
    });
}
static_assert(are_in_the_tables(), "data/evidence has a number for every parameter");

/// The row of a key whatever its unit: draws work on the numbers as the tables hold them.
const evidence::Cited<double>& plain_row(const evidence::Tables& tables, std::string_view key) {
    const auto found = std::find_if(tables.rows().begin(), tables.rows().end(),
                                    [&](const evidence::Tables::Row& row) { return row.cited.key == key; });
    expects(found != tables.rows().end(), fmt::format("evidence has no parameter \"{}\"", key));
    return found->cited;
}

struct DevelopmentKeys {
    evidence::TimeKey hours_at_20, hours_at_30;
    evidence::TemperatureKey threshold;
    evidence::DegreeHoursKey degree_hours;
};

Development read_development(const evidence::Tables& tables, const DevelopmentKeys& keys) {
    return {units::in_hours(tables.time(keys.hours_at_20).value),
            units::in_hours(tables.time(keys.hours_at_30).value),
            units::in_celsius(tables.temperature(keys.threshold).value),
            units::as_number(tables.degree_hours(keys.degree_hours).value)};
}

void read_treatments(const evidence::Tables& tables, FixedParameters& fixed) {
    const auto strength = [&](evidence::StrengthKey key) {
        return units::in_milligrams_per_litre(tables.strength(key).value);
    };
    const auto days = [&](evidence::TimeKey key) { return units::in_days(tables.time(key).value); };
    fixed.published_strength_low = strength("published_strength_low");
    fixed.strength_without_caution = strength("strength_without_caution");
    fixed.home_strength = strength("home_strength");
    for (const records::MethodRow& row : records::method_rows) {
        if (!row.kills.days_in_blood.empty())
            days_in_blood(fixed, row.method) = days(row.kills.days_in_blood);
    }
    fixed.thing_sprayed = units::as_fraction(tables.part("kill_permethrin_nest_porous").value);
    fixed.wet = safety::wet_limits(tables);
    fixed.outside = outside_chances(tables);
}

FixedParameters read_fixed(const evidence::Tables& tables, DevelopmentForm form) {
    FixedParameters fixed;
    fixed.egg = read_development(tables, {"egg_hours_at_20C", "egg_hours_at_30C", "gallinae_egg_threshold",
                                          "gallinae_egg_degree_hours"});
    fixed.larva = read_development(tables, {"larva_hours_at_20C", "larva_hours_at_30C",
                                            "gallinae_larva_threshold", "gallinae_larva_degree_hours"});
    fixed.protonymph =
        read_development(tables, {"protonymph_hours_at_20C", "protonymph_hours_at_30C",
                                  "gallinae_protonymph_threshold", "gallinae_protonymph_degree_hours"});
    fixed.deutonymph =
        read_development(tables, {"deutonymph_hours_at_20C", "deutonymph_hours_at_30C",
                                  "gallinae_deutonymph_threshold", "gallinae_deutonymph_degree_hours"});
    fixed.form = form;
    fixed.plateau_starts = units::in_celsius(tables.temperature("plateau_starts").value);
    fixed.plateau_ends = units::in_celsius(tables.temperature("plateau_ends").value);
    fixed.development_stops = units::in_celsius(tables.temperature("development_stops").value);
    fixed.adult_reference = units::in_celsius(tables.temperature("adult_reference_temperature").value);
    fixed.unfed_shape = static_cast<int>(units::as_number(tables.number("unfed_shape").value));
    fixed.neighbours = units::as_number(tables.number("neighbours").value);
    fixed.light_infestation = units::as_number(tables.number("detection_light_mites").value);
    read_treatments(tables, fixed);
    return fixed;
}

/// Van der Corput's sequence in base 2: every first part of it is spread evenly.
double evenly_spread(std::size_t index) {
    double u = 0;
    for (double digit = 0.5; index > 0; index /= 2, digit /= 2) u += digit * static_cast<double>(index % 2);
    return u;
}

int shape_of_block(const evidence::Cited<double>& shape, std::size_t block, std::size_t blocks) {
    const double u = std::min(evenly_spread(block) + 0.5 / static_cast<double>(blocks), 1.0);
    return static_cast<int>(std::lround(triangular_quantile(shape.low, shape.value, shape.high, u)));
}

/// The coordinate of how many mites a sighting stands for. Fields that were added to the list since come
/// after it, so that the draws of everything older stay what they were.
constexpr std::size_t sighting_coordinate = 48;

std::size_t coordinate_of(std::size_t field) { return field < sighting_coordinate ? field : field + 1; }

/// Which coordinate of a point each field is drawn with.
std::vector<std::size_t> coordinates(const std::vector<const evidence::Cited<double>*>& rows) {
    std::vector<std::size_t> own(fields.size());
    for (std::size_t j = 0; j < fields.size(); ++j) {
        own[j] = coordinate_of(j);
        for (std::size_t k = 0; k < fields.size() && !fields[j].drawn_with.empty(); ++k) {
            if (fields[k].key != fields[j].drawn_with) continue;
            expects(rows[j]->low <= rows[k]->low && rows[j]->value <= rows[k]->value &&
                        rows[j]->high <= rows[k]->high,
                    fmt::format("the evidence for {} is nowhere above that for {}", fields[j].key,
                                fields[k].key));
            own[j] = coordinate_of(k);
        }
    }
    return own;
}

}  // namespace

double OutsideChances::into_one_of(std::size_t places, records::OutsideKind kind) const {
    expects(places > 0, "it reached somewhere");
    return -std::expm1(std::log1p(-of(kind)) / static_cast<double>(places));
}

OutsideChances outside_chances(const evidence::Tables& tables) {
    OutsideChances chances;
    for (const records::OutsideKind kind : records::all_of<records::OutsideKind>())
        chances.by_kind.at(static_cast<std::size_t>(kind)) =
            units::as_fraction(tables.part(records::outside_row(kind)).value);
    return chances;
}

FixedParameters fixed_parameters(const evidence::Tables& tables, DevelopmentForm form) {
    return read_fixed(tables, form);
}

std::span<const ParameterField> parameter_fields() { return fields; }

ParameterMember find_parameter(std::string_view key) {
    const auto found =
        std::find_if(fields.begin(), fields.end(), [&](const ParameterField& f) { return f.key == key; });
    return found == fields.end() ? nullptr : found->member;
}

double triangular_quantile(double low, double mode, double high, double u) {
    expects(low <= mode && mode <= high && u >= 0 && u <= 1, "low <= mode <= high and 0 <= u <= 1");
    if (!(high > low)) return low;
    const double split = (mode - low) / (high - low);
    if (u < split) return low + std::sqrt(u * (high - low) * (mode - low));
    return high - std::sqrt((1 - u) * (high - low) * (high - mode));
}

Ensemble draw_parameters(const evidence::Tables& tables, std::size_t count, std::uint64_t seed,
                         DevelopmentForm form) {
    expects(count > 0 && count % draws_per_block == 0, "draws come in whole blocks");
    Ensemble ensemble;
    ensemble.fixed = read_fixed(tables, form);
    const evidence::Cited<double>& shape = plain_row(tables, "erlang_shape");
    ensemble.mode.erlang_shape = static_cast<int>(shape.value);
    std::vector<const evidence::Cited<double>*> rows;
    for (const ParameterField& field : fields) {
        rows.push_back(&plain_row(tables, field.key));
        ensemble.mode.*field.member = rows.back()->value;
    }
    const std::vector<std::size_t> coordinate = coordinates(rows);
    const std::size_t dimensions = fields.size() + 1;
    std::vector<double> u(dimensions);
    base::RandomStream shift_stream(seed, 0, 0);
    std::vector<double> shift(dimensions);
    for (double& s : shift) s = shift_stream.uniform();
    boost::random::sobol points(dimensions);
    boost::random::uniform_01<double> unit;
    for (std::size_t i = 0; i < count; ++i) {
        MiteParameters draw;
        draw.erlang_shape = shape_of_block(shape, i / draws_per_block, count / draws_per_block);
        for (std::size_t j = 0; j < dimensions; ++j) {
            const double sum = unit(points) + shift[j];
            u[j] = sum - std::floor(sum);
        }
        for (std::size_t j = 0; j < fields.size(); ++j)
            draw.*fields[j].member =
                triangular_quantile(rows[j]->low, rows[j]->value, rows[j]->high, u[coordinate[j]]);
        draw.sighting_quantile = u[sighting_coordinate];
        ensemble.draws.push_back(draw);
    }
    return ensemble;
}

}  // namespace mitefall::mites
