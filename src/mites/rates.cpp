#include "mites/rates.h"

#include <algorithm>
#include <cmath>

namespace mitefall::mites {
namespace {

constexpr double hours_per_day = 24.0;

/// Straight line through the rates at 20 and 30 C, per hour; negative below the threshold.
double degree_hour_rate(const Development& stage, double celsius) {
    const double at_20 = 1 / stage.hours_at_20;
    const double at_30 = 1 / stage.hours_at_30;
    return at_20 + (at_30 - at_20) * (celsius - 20) / 10;
}

double rate_per_hour(const Development& stage, DevelopmentForm form, double celsius) {
    switch (form) {
        case DevelopmentForm::degree_hours: return degree_hour_rate(stage, celsius);
        case DevelopmentForm::log_linear:
            return 1 /
                   (stage.hours_at_20 * std::pow(stage.hours_at_30 / stage.hours_at_20, (celsius - 20) / 10));
        case DevelopmentForm::gallinae:
            return (celsius - stage.gallinae_threshold) / stage.gallinae_degree_hours;
    }
    return 0;
}

template <class F>
double over_day_and_night(const records::Climate& climate, F rate) {
    return (rate(units::in_celsius(climate.day)) + rate(units::in_celsius(climate.night))) / 2;
}

/// How much faster adults and starvation run at `celsius` than at `reference`; held above the plateau.
double q10_factor(const FixedParameters& fixed, const MiteParameters& draw, double celsius,
                  double reference) {
    return std::pow(draw.unfed_life_q10, (std::min(celsius, fixed.plateau_ends) - reference) / 10);
}

double q10_over_day(const FixedParameters& fixed, const MiteParameters& draw, const records::Climate& climate,
                    double reference) {
    return over_day_and_night(climate, [&](double c) { return q10_factor(fixed, draw, c, reference); });
}

/// Background death such that a share `survival` of an Erlang stage comes through:
/// (advance / (advance + loss))^substages = survival.
double loss_for_survival(double survival, double advance, int substages) {
    return advance * (std::pow(std::max(survival, 1e-3), -1.0 / substages) - 1);
}

StageRates developing(const Development& stage, const FixedParameters& fixed, const MiteParameters& draw,
                      const records::Climate& climate, double survival) {
    const double rate =
        over_day_and_night(climate, [&](double c) { return development_rate(stage, fixed, c); });
    const double advance = rate * draw.erlang_shape;
    return {draw.erlang_shape, advance, loss_for_survival(survival, advance, draw.erlang_shape)};
}

double egg_survival(const MiteParameters& draw, const records::Climate& climate) {
    const double part = std::clamp((units::in_percent(climate.humidity) - 50) / (85 - 50), 0.0, 1.0);
    return draw.egg_survival_dry + part * (draw.egg_survival_humid - draw.egg_survival_dry);
}

/// Starvation is a chain too; its last substage ends in death.
StageRates starving(double life_at_25, const FixedParameters& fixed, const MiteParameters& draw,
                    const records::Climate& climate) {
    const double dryness = std::clamp((85 - units::in_percent(climate.humidity)) / (85 - 31), 0.0, 1.0);
    const double life = life_at_25 * std::pow(draw.unfed_life_dry_factor, dryness);
    return {fixed.unfed_shape, fixed.unfed_shape * q10_over_day(fixed, draw, climate, 25) / life, 0};
}

StageRates timed(double days_at_reference, const FixedParameters& fixed, const MiteParameters& draw,
                 const records::Climate& climate) {
    const double pace = q10_over_day(fixed, draw, climate, fixed.adult_reference);
    return {draw.erlang_shape, draw.erlang_shape * pace / days_at_reference, 0};
}

}  // namespace

double development_rate(const Development& stage, const FixedParameters& fixed, double celsius) {
    const double held = std::min(celsius, fixed.plateau_starts);
    const double rate = std::max(0.0, rate_per_hour(stage, fixed.form, held)) * hours_per_day;
    if (celsius <= fixed.plateau_ends) return rate;
    const double left = (fixed.development_stops - celsius) / (fixed.development_stops - fixed.plateau_ends);
    return rate * std::max(0.0, left);
}

StageRates stage_rates(Stage stage, const FixedParameters& fixed, const MiteParameters& draw,
                       const records::Climate& climate) {
    switch (activity_of(stage)) {
        case Activity::egg: return developing(fixed.egg, fixed, draw, climate, egg_survival(draw, climate));
        case Activity::larva: return developing(fixed.larva, fixed, draw, climate, draw.larva_survival);
        case Activity::protonymph_seeking: return starving(draw.unfed_protonymph_life, fixed, draw, climate);
        case Activity::protonymph_feeding: return developing(fixed.protonymph, fixed, draw, climate, 1);
        case Activity::deutonymph:
            return developing(fixed.deutonymph, fixed, draw, climate, draw.deutonymph_survival);
        case Activity::adult_seeking: return starving(draw.unfed_adult_life, fixed, draw, climate);
        case Activity::adult_feeding: return timed(draw.adult_feeding_time, fixed, draw, climate);
        case Activity::adult_laying: return timed(draw.laying_time, fixed, draw, climate);
    }
    return {};
}

double finding_rate(Stage stage, const MiteParameters& draw) {
    return activity_of(stage) == Activity::protonymph_seeking ? draw.host_finding_protonymph
                                                              : draw.host_finding_adult;
}

double laying_rate(const FixedParameters& fixed, const MiteParameters& draw,
                   const records::Climate& climate) {
    const double pace = q10_over_day(fixed, draw, climate, fixed.adult_reference);
    return draw.eggs_per_meal * draw.daughters_per_egg * pace / draw.laying_time;
}

double chance_of_next_meal(int meal, const MiteParameters& draw) {
    if (meal >= meal_count) return 0;
    return draw.adult_survival_per_cycle * std::clamp(draw.meals_per_life - meal, 0.0, 1.0);
}

double detection_per_mite(const FixedParameters& fixed, double light) {
    return -std::expm1(std::log1p(-light) / fixed.light_infestation);
}

double detection_per_mite(const FixedParameters& fixed, const MiteParameters& draw) {
    return detection_per_mite(fixed, draw.detection_light);
}

}  // namespace mitefall::mites
