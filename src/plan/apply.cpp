#include <algorithm>
#include <map>
#include <unordered_map>
#include <utility>
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
            for (const ScheduledTreatment& scheduled : round.treatments)
                by_day_[scheduled.treatment.day()].push_back(doing_of(scheduled.treatment));
        }
        for (const DampSpell& spell : schedule.damp) {
            // The paper was sprayed the day before it is first wetted again.
            site_of(spell.enclosure).dry_on.emplace(spell.first - Days(1), spell.last + Days(1));
        }
    }

    void apply() {
        const mites::FixedParameters fixed = mites::fixed_parameters(setting_.with.tables);
        scenario::Residents residents(scenario_);
        for (const auto& [day, doings] : by_day_) {
            const double time = std::max(setting_.known.time_of(day), not_before_);
            for (const Doing& doing : doings) move(doing, time, residents);
            std::vector<scenario::Action> actions;
            actions.reserve(doings.size());
            for (const Doing& doing : doings) {
                if (doing.wood == nullptr) actions.push_back(action_of(doing, time, residents));
            }
            scenario::add_treatments(scenario_, actions, fixed, residents);
        }
    }

  private:
    /// An enclosure of the course, as the scenario knows it.
    struct Site {
        scenario::PlaceIndex place = 0;
        std::vector<records::AnimalId> living;  ///< by now, in the order of the scenario
        std::map<Day, Day> dry_on;              ///< of what is sprayed then, where it is kept damp
    };
    struct Doing {
        const PermittedTreatment* treatment = nullptr;
        Site* site = nullptr;                        ///< none of a room
        const records::EmptiedWood* wood = nullptr;  ///< whose animals it moves
    };

    [[nodiscard]] Doing doing_of(const PermittedTreatment& treatment) {
        if (treatment.enclosure().empty()) return {&treatment, nullptr, nullptr};
        return {&treatment, &site_of(treatment.enclosure()), emptied_by(treatment, schedule_)};
    }

    [[nodiscard]] Site& site_of(const EnclosureId& id) {
        const auto [known, is_new] = sites_.try_emplace(id);
        Site& site = known->second;
        if (!is_new) return site;
        const auto place = setting_.known.enclosures.find(id);
        site.place = place == setting_.known.enclosures.end() ? add_tub(id) : place->second;
        const auto living = setting_.known.living.find(id);
        if (living != setting_.known.living.end()) site.living = living->second;
        return site;
    }

    /// A place more, where the case does not know it yet.
    [[nodiscard]] scenario::PlaceIndex add_tub(const EnclosureId& id) {
        const records::Enclosure& tub = setting_.with.collection.enclosures.at(id);
        scenario::Place place;
        place.name = tub.name;
        place.room = setting_.known.rooms.at(tub.room);
        place.material = tub.material;
        place.climate = tub.climate;
        scenario_.places.push_back(std::move(place));
        return scenario_.places.size() - 1;
    }

    /// Into the tub with the mites on them, before anything else is done that day.
    void move(const Doing& doing, double time, scenario::Residents& residents) {
        if (doing.wood == nullptr) return;
        Site& from = site_of(doing.wood->enclosure);
        Site& tub = site_of(doing.wood->tub);
        const std::vector<scenario::Host> hosts = residents.of(from.place);
        for (const scenario::Host host : hosts) residents.move(time, host, from.place, tub.place);
        tub.living = std::exchange(from.living, {});
    }

    /// The animals treated, as the scenario numbers those that live together.
    [[nodiscard]] static std::vector<scenario::Host> hosts_of(const Doing& doing,
                                                              const std::vector<scenario::Host>& living) {
        std::vector<scenario::Host> hosts;
        if (doing.site == nullptr) return hosts;
        const std::vector<records::AnimalId>& names = doing.site->living;
        base::expects(names.size() == living.size(), "the scenario knows every animal of an enclosure");
        const auto& treated = doing.treatment->animals();
        for (std::size_t i = 0; i < living.size(); ++i) {
            if (std::find(treated.begin(), treated.end(), names[i]) != treated.end())
                hosts.push_back(living[i]);
        }
        return hosts;
    }

    [[nodiscard]] scenario::Action action_of(const Doing& doing, double time,
                                             const scenario::Residents& residents) const {
        const PermittedTreatment& treatment = *doing.treatment;
        scenario::Action action;
        action.method = treatment.method();
        action.time = time;
        action.strength = treatment.strength();
        action.place = doing.site == nullptr ? setting_.known.rooms.at(treatment.room()) : doing.site->place;
        action.animals = hosts_of(doing, residents.of(action.place));
        action.damp_until = setting_.known.time_of(dry_on(doing));
        return action;
    }

    [[nodiscard]] static Day dry_on(const Doing& doing) {
        const Day tomorrow = doing.treatment->day() + Days(1);
        if (doing.site == nullptr) return tomorrow;
        const auto kept = doing.site->dry_on.find(doing.treatment->day());
        return kept == doing.site->dry_on.end() ? tomorrow : kept->second;
    }

    const Schedule& schedule_;
    const Setting& setting_;
    scenario::Scenario& scenario_;
    double not_before_;
    std::unordered_map<EnclosureId, Site> sites_;
    std::map<Day, std::vector<Doing>> by_day_;
};

}  // namespace

scenario::Scenario apply(const Schedule& schedule, const Setting& setting, scenario::Scenario scenario,
                         double not_before) {
    Applier(schedule, setting, scenario, not_before).apply();
    return scenario;
}

}  // namespace mitefall::plan
