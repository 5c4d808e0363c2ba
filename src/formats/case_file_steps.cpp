#include <fmt/format.h>

#include <algorithm>

#include "formats/case_file_actions.h"

namespace mitefall::formats {
namespace {

using forecast::Event;
using forecast::Happening;
using forecast::Scenario;

/// Follows one event; false if it takes an animal from where there is none.
bool follow(const Happening& what, std::vector<int>& animals) {
    const auto* const move = std::get_if<forecast::MoveAnimal>(&what);
    const auto* const leave = std::get_if<forecast::AnimalLeaves>(&what);
    if (const auto* const join = std::get_if<forecast::AnimalJoins>(&what)) ++animals[join->place];
    if (move == nullptr && leave == nullptr) return true;
    int& there = animals[move != nullptr ? move->from : leave->place];
    if (there < 1) return false;
    --there;
    if (move != nullptr) ++animals[move->to];
    return true;
}

void append(Scenario& scenario, const CaseStep& step, const forecast::FixedParameters& fixed) {
    if (const auto* const action = std::get_if<forecast::Action>(&step.what)) {
        forecast::add_action(scenario, *action, fixed);
    } else {
        scenario.events.push_back({step.time, std::get<Happening>(step.what)});
    }
}

}  // namespace

void CaseSteps::write(Scenario& scenario, const forecast::FixedParameters& fixed) {
    if (fault_.found()) return;
    std::stable_sort(steps_.begin(), steps_.end(),
                     [](const CaseStep& a, const CaseStep& b) { return a.time < b.time; });
    std::vector<int> animals = forecast::animals_at(scenario, 0);
    for (const CaseStep& step : steps_) {
        append(scenario, step, fixed);
        const auto* const happening = std::get_if<Happening>(&step.what);
        if (happening == nullptr || follow(*happening, animals)) continue;
        fault_.note(base::invalid("an animal leaves an empty enclosure",
                                  scenario.places[forecast::place_of(*happening)].name.substr(0, 60),
                                  "an animal in it on that day", "correct the day or the place"),
                    step.pointer);
        return;
    }
}

}  // namespace mitefall::formats
