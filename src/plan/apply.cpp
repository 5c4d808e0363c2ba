#include <algorithm>
#include <vector>

#include "base/contract.h"
#include "plan/schedule.h"
#include "scenario/actions.h"

namespace mitefall::plan {
namespace {

using units::Day;
using units::Days;

/// The day on which what is sprayed then is dry.
Day dry_on(const safety::PermittedTreatment& treatment, const Schedule& schedule) {
    for (const DampSpell& spell : schedule.damp) {
        if (spell.enclosure == treatment.enclosure() && spell.first == treatment.day() + Days(1))
            return spell.last + Days(1);
    }
    return treatment.day() + Days(1);
}

/// The animals treated, as the scenario numbers those that live together.
std::vector<scenario::Host> hosts_of(const safety::PermittedTreatment& treatment, const Setting& setting,
                                     const std::vector<scenario::Host>& living) {
    std::vector<scenario::Host> hosts;
    const auto names = setting.known.living.find(treatment.enclosure());
    if (names == setting.known.living.end()) return hosts;
    base::expects(names->second.size() == living.size(), "the scenario knows every animal of an enclosure");
    const auto& treated = treatment.animals();
    for (std::size_t i = 0; i < living.size(); ++i) {
        if (std::find(treated.begin(), treated.end(), names->second[i]) != treated.end())
            hosts.push_back(living[i]);
    }
    return hosts;
}

scenario::Action action_of(const safety::PermittedTreatment& treatment, const Schedule& schedule,
                           const Setting& setting, const scenario::Residents& residents, double not_before) {
    const auto& known = setting.known;
    scenario::Action action;
    action.method = treatment.method();
    action.time = std::max(known.time_of(treatment.day()), not_before);
    action.strength = treatment.strength();
    action.place = treatment.enclosure().empty() ? known.rooms.at(treatment.room())
                                                 : known.enclosures.at(treatment.enclosure());
    action.animals = hosts_of(treatment, setting, residents.of(action.place));
    action.damp_until = known.time_of(dry_on(treatment, schedule));
    return action;
}

}  // namespace

scenario::Scenario apply(const Schedule& schedule, const Setting& setting, scenario::Scenario scenario,
                         double not_before) {
    const mites::FixedParameters fixed = mites::fixed_parameters(setting.with.tables);
    scenario::Residents residents(scenario);
    std::map<Day, std::vector<scenario::Action>> by_day;
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& scheduled : round.treatments) {
            by_day[scheduled.treatment.day()].push_back(
                action_of(scheduled.treatment, schedule, setting, residents, not_before));
        }
    }
    for (const auto& [day, actions] : by_day) scenario::add_treatments(scenario, actions, fixed, residents);
    return scenario;
}

}  // namespace mitefall::plan
