#include "formats/json/worked_rates.h"

#include <array>

#include "formats/json/parts.h"
#include "mites/rates.h"

namespace mitefall::formats {
namespace {

using mites::Ensemble;
using mites::FixedParameters;
using mites::MiteParameters;
using mites::Stage;

constexpr std::array worked_celsius{22.0, 25.0, 27.0, 28.0, 30.0};
constexpr double worked_humidity_percent = 85;

std::string_view form_text(mites::DevelopmentForm form) {
    switch (form) {
        case mites::DevelopmentForm::degree_hours: return "degree-hours";
        case mites::DevelopmentForm::log_linear: return "log-linear";
        case mites::DevelopmentForm::gallinae: return "gallinae";
    }
    return {};
}

Json stage_rates_json(Stage stage, const FixedParameters& fixed, const MiteParameters& draw,
                      const records::Climate& climate) {
    const auto activity = mites::activity_of(stage);
    const bool lays = activity == mites::Activity::adult_laying;
    const auto rates = mites::stage_rates(stage, fixed, draw, climate);
    return {{"stage", mites::to_text(stage)},
            {"substages", rates.substages},
            {"advance_per_day", number(rates.advance)},
            {"loss_per_day", number(rates.loss)},
            {"finding_per_day",
             mites::is_seeking(activity) ? number(mites::finding_rate(stage, draw)) : Json(nullptr)},
            {"laying_per_day", lays ? number(mites::laying_rate(fixed, draw, climate)) : Json(nullptr)},
            {"next_meal",
             lays ? number(mites::chance_of_next_meal(mites::meal_of(stage), draw)) : Json(nullptr)}};
}

}  // namespace

Json development_json(const FixedParameters& fixed) {
    Json stages = Json::array();
    const auto add = [&](std::string_view stage, const mites::Development& d) {
        stages.push_back({{"stage", stage},
                          {"hours_at_20c", number(d.hours_at_20)},
                          {"hours_at_30c", number(d.hours_at_30)},
                          {"gallinae_threshold_c", number(d.gallinae_threshold)},
                          {"gallinae_degree_hours", number(d.gallinae_degree_hours)}});
    };
    add("egg", fixed.egg);
    add("larva", fixed.larva);
    add("protonymph-feeding", fixed.protonymph);
    add("deutonymph", fixed.deutonymph);
    return {{"form", form_text(fixed.form)}, {"stages", stages}};
}

Json rates_at_mode(const Ensemble& ensemble) {
    return list(worked_celsius, [&](double celsius) -> Json {
        const records::Climate climate{units::celsius(celsius), units::celsius(celsius),
                                       units::relative_humidity_percent(worked_humidity_percent)};
        const auto stage_row = [&](Stage stage) {
            return stage_rates_json(stage, ensemble.fixed, ensemble.mode, climate);
        };
        return {{"temperature_c", celsius},
                {"humidity_percent", worked_humidity_percent},
                {"stages", list(mites::all_stages, stage_row)}};
    });
}

}  // namespace mitefall::formats
