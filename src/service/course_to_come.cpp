#include "service/course_to_come.h"

#include <algorithm>

namespace mitefall::service {
namespace {

constexpr double an_instant = 1.0 / 1024;  // days

bool is_against_mites(const scenario::Event& event) {
    return std::holds_alternative<scenario::Kill>(event.what) ||
           std::holds_alternative<scenario::KillOnAnimals>(event.what) ||
           std::holds_alternative<scenario::Residue>(event.what) ||
           std::holds_alternative<scenario::ResidueGone>(event.what) ||
           std::holds_alternative<scenario::Medicated>(event.what);
}

double today_of(const plan::Setting& setting) { return setting.known.time_of(setting.today); }

}  // namespace

scenario::Scenario scenario_from_today(const plan::Setting& setting) {
    const scenario::RecordedCase& known = setting.known;
    scenario::Scenario scenario = plan::present_of(setting);
    if (known.sighted.empty() || known.from < today_of(setting)) return scenario;
    for (scenario::Event& event : scenario.events) {
        if (event.time == known.from && is_against_mites(event)) event.time += an_instant;
    }
    std::stable_sort(scenario.events.begin(), scenario.events.end(),
                     [](const scenario::Event& a, const scenario::Event& b) { return a.time < b.time; });
    return scenario;
}

scenario::Scenario scenario_from_today(const plan::Setting& setting, const plan::Schedule& course) {
    return plan::apply(course, setting, scenario_from_today(setting), today_of(setting) + an_instant);
}

}  // namespace mitefall::service
