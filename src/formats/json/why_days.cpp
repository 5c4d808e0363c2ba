#include "formats/json/why_days.h"

#include "formats/json/parts.h"
#include "mites/durations.h"

namespace mitefall::formats {
namespace {

constexpr std::array<const char*, forecast::cohort_total> cohorts{"egg", "later", "laid_since"};

Json shares_json(const forecast::Shares& shares) {
    Json json = Json::object();
    for (std::size_t c = 0; c < cohorts.size(); ++c) {
        for (const mites::LifeStage stage : mites::all_life_stages)
            json[cohorts.at(c)][std::string(to_text(stage))] =
                number(shares.at(c).at(static_cast<std::size_t>(stage)));
    }
    return json;
}

Json gate_json(const StripGate& gate) {
    return {{"day", date(gate.day)},
            {"own_date", gate.own_date},
            {"methods", list(gate.methods, [](records::Method method) { return records::to_text(method); })},
            {"before", shares_json(gate.before)},
            {"after", shares_json(gate.after)},
            {"caught", band_json(gate.caught)},
            {"passed", band_json(gate.passed)}};
}

Json stages_json(const StripEnclosure& told) {
    Json stages = Json::array();
    for (const mites::LifeStage stage : mites::all_life_stages) {
        const auto& lasts = told.lasts.at(static_cast<std::size_t>(stage));
        stages.push_back({{"stage", to_text(stage)},
                          {"days", lasts ? Json{{"mean", number(lasts->mean)},
                                                {"p10", number(lasts->p10)},
                                                {"p90", number(lasts->p90)}}
                                         : Json(nullptr)}});
    }
    return stages;
}

Json told_of_enclosure(const StripEnclosure& told) {
    Json json{{"enclosure", name(told.enclosure)}};
    json["day_c"] = number(units::in_celsius(told.by_day));
    json["night_c"] = number(units::in_celsius(told.by_night));
    json["stages"] = stages_json(told);
    json["rounds"] = list(told.gates, gate_json);
    json["checks"] = list(told.checks, [](const StripCheck& check) {
        return Json{{"day", date(check.day)}, {"alive", band_json(check.alive)}};
    });
    return json;
}

}  // namespace

Json why_days_json(const StripView& view) {
    Json json{{"day_zero", date(view.day_zero)}};
    json["rounds"] = dates(view.rounds);
    json["enclosures"] = list(view.enclosures, told_of_enclosure);
    json["clear"] = band_json(view.clear);
    json["by"] = date(view.by);
    json["left_out"] = view.left_out;
    return json;
}

}  // namespace mitefall::formats
