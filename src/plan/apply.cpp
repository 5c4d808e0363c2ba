#include <algorithm>
#include <map>
#include <vector>

#include "base/contract.h"
#include "plan/emptied.h"
#include "plan/schedule.h"
#include "scenario/actions.h"

namespace mitefall::plan {
namespace {

using records::EnclosureId;
using safety::PermittedTreatment;
using units::Day;
using units::Days;

/// The day on which what is sprayed then is dry.
Day dry_on(const PermittedTreatment& treatment, const Schedule& schedule) {
    for (const DampSpell& spell : schedule.damp) {
        if (spell.enclosure == treatment.enclosure() && spell.first == treatment.day() + Days(1))
            return spell.last + Days(1);
    }
    return treatment.day() + Days(1);
}

/// The wood whose animals the treatment moves; nullptr for any other.
const records::EmptiedWood* emptied_by(const PermittedTreatment& treatment, const Schedule& schedule) {
    const auto& emptied = schedule.assignment.choices.emptied_wood;
    const bool is_moved =
        treatment.method() == records::Method::fresh_tub && is_tub_for_wood(emptied, treatment.enclosure());
    return is_moved ? wood_of(emptied, treatment.enclosure()) : nullptr;
}

/// Where everything is while a schedule is written into a scenario.
class Applier {
  public:
    Applier(const Schedule& schedule, const Setting& setting, scenario::Scenario& scenario, double not_before)
        : schedule_(schedule), setting_(setting), scenario_(scenario), not_before_(not_before) {
        for (const Round& round : schedule.rounds) {
            for (const ScheduledTreatment& scheduled : round.treatments) {
                by_day_[scheduled.treatment.day()].push_back(&scheduled.treatment);
                if (emptied_by(scheduled.treatment, schedule) != nullptr)
                    add_tub(scheduled.treatment.enclosure());
            }
        }
    }

    void apply() {
        const mites::FixedParameters fixed = mites::fixed_parameters(setting_.with.tables);
        scenario::Residents residents(scenario_);
        for (const auto& [day, treatments] : by_day_) {
            for (const PermittedTreatment* const treatment : treatments) move(*treatment, residents);
            std::vector<scenario::Action> actions;
            for (const PermittedTreatment* const treatment : treatments) {
                if (emptied_by(*treatment, schedule_) == nullptr)
                    actions.push_back(action_of(*treatment, residents));
            }
            scenario::add_treatments(scenario_, actions, fixed, residents);
        }
    }

  private:
    [[nodiscard]] double time_of(const PermittedTreatment& treatment) const {
        return std::max(setting_.known.time_of(treatment.day()), not_before_);
    }

    [[nodiscard]] scenario::PlaceIndex place_of(const EnclosureId& id) const {
        const auto added = added_.find(id);
        return added == added_.end() ? setting_.known.enclosures.at(id) : added->second;
    }
    /// Who lives there by now; nullptr where the case does not know.
    [[nodiscard]] const std::vector<records::AnimalId>* living_in(const EnclosureId& id) const {
        if (const auto moved = moved_.find(id); moved != moved_.end()) return &moved->second;
        const auto known = setting_.known.living.find(id);
        return known == setting_.known.living.end() ? nullptr : &known->second;
    }

    /// A place more, where the case does not know it yet.
    void add_tub(const EnclosureId& id) {
        if (setting_.known.enclosures.contains(id)) return;
        const records::Enclosure& tub = setting_.with.collection.enclosures.at(id);
        scenario::Place place;
        place.name = tub.name;
        place.room = setting_.known.rooms.at(tub.room);
        place.material = tub.material;
        place.climate = tub.climate;
        added_[id] = scenario_.places.size();
        scenario_.places.push_back(std::move(place));
    }

    /// Into the tub with the mites on them, before anything else is done that day.
    void move(const PermittedTreatment& treatment, scenario::Residents& residents) {
        const records::EmptiedWood* const wood = emptied_by(treatment, schedule_);
        if (wood == nullptr) return;
        const scenario::PlaceIndex from = place_of(wood->enclosure);
        const std::vector<scenario::Host> hosts = residents.of(from);
        for (const scenario::Host host : hosts)
            residents.move(time_of(treatment), host, from, place_of(wood->tub));
        moved_[wood->tub] = *living_in(wood->enclosure);
        moved_[wood->enclosure].clear();
    }

    /// The animals treated, as the scenario numbers those that live together.
    [[nodiscard]] std::vector<scenario::Host> hosts_of(const PermittedTreatment& treatment,
                                                       const std::vector<scenario::Host>& living) const {
        std::vector<scenario::Host> hosts;
        const auto* const names = living_in(treatment.enclosure());
        if (names == nullptr) return hosts;
        base::expects(names->size() == living.size(), "the scenario knows every animal of an enclosure");
        const auto& treated = treatment.animals();
        for (std::size_t i = 0; i < living.size(); ++i) {
            if (std::find(treated.begin(), treated.end(), (*names)[i]) != treated.end())
                hosts.push_back(living[i]);
        }
        return hosts;
    }

    [[nodiscard]] scenario::Action action_of(const PermittedTreatment& treatment,
                                             const scenario::Residents& residents) const {
        scenario::Action action;
        action.method = treatment.method();
        action.time = time_of(treatment);
        action.strength = treatment.strength();
        action.place = treatment.enclosure().empty() ? setting_.known.rooms.at(treatment.room())
                                                     : place_of(treatment.enclosure());
        action.animals = hosts_of(treatment, residents.of(action.place));
        action.damp_until = setting_.known.time_of(dry_on(treatment, schedule_));
        return action;
    }

    const Schedule& schedule_;
    const Setting& setting_;
    scenario::Scenario& scenario_;
    double not_before_;
    std::map<EnclosureId, scenario::PlaceIndex> added_;  ///< tubs
    std::map<EnclosureId, std::vector<records::AnimalId>> moved_;
    std::map<Day, std::vector<const PermittedTreatment*>> by_day_;
};

}  // namespace

scenario::Scenario apply(const Schedule& schedule, const Setting& setting, scenario::Scenario scenario,
                         double not_before) {
    Applier(schedule, setting, scenario, not_before).apply();
    return scenario;
}

}  // namespace mitefall::plan
