#include <algorithm>
#include <set>
#include <utility>

#include "formats/casefile/actions.h"

namespace mitefall::formats {
namespace {

using scenario::Happening;
using scenario::Host;
using scenario::PlaceIndex;
using scenario::Residents;
using scenario::Scenario;

/// Writes what happens, step by step, and follows the animals.
class StepWriter {
  public:
    StepWriter(const std::vector<CaseStep>& steps, Scenario& scenario, const mites::FixedParameters& fixed,
               Fault& fault)
        : steps_(steps), scenario_(scenario), fixed_(fixed), fault_(fault), residents_(scenario) {}

    void write() {
        for (; at_ < steps_.size() && !fault_.found(); ++at_)
            std::visit([&](const auto& what) { write(what); }, step().what);
    }

  private:
    [[nodiscard]] const CaseStep& step() const { return steps_[at_]; }
    [[nodiscard]] std::string name_of(PlaceIndex place) const {
        return scenario_.places[place].name.substr(0, 60);
    }

    void write(const Happening& what) {
        if (const auto* const join = std::get_if<scenario::AnimalJoins>(&what))
            residents_.join(step().time, join->place);
        else
            scenario_.events.push_back({step().time, what});
    }

    /// All treatments of a place at this moment act together, where the first of them stands.
    void write(const CaseTreatment& first) {
        const PlaceIndex place = first.action.place;
        if (!treated_.emplace(step().time, place).second) return;
        std::vector<scenario::Action> together;
        for (std::size_t i = at_; i < steps_.size() && steps_[i].time == step().time; ++i) {
            const auto* const treatment = std::get_if<CaseTreatment>(&steps_[i].what);
            if (treatment == nullptr || treatment->action.place != place) continue;
            together.push_back(treatment->action);
            together.back().animals = hosts_of(treatment->animals, place, steps_[i].pointer);
        }
        if (!fault_.found()) scenario::add_treatments(scenario_, together, fixed_, residents_);
    }

    void write(const CaseDab& given) {
        const std::vector<Host> hosts = hosts_of(given.animals, given.place, step().pointer);
        if (fault_.found()) return;
        if (given.animals.empty()) {
            scenario_.events.push_back({step().time, scenario::Kill{given.place, mites::Reach::on_animal,
                                                                    given.dab.chance, given.dab.part}});
        } else {
            scenario::add_kills(scenario_, step().time, {given.place, on(hosts, given.place, given.dab)});
        }
        if (!given.days || residents_.of(given.place).empty()) return;
        const scenario::Dose dose{given.dab.chance, given.dab.part, step().time + *given.days};
        residents_.dose(step().time, given.place,
                        on(given.animals.empty() ? residents_.of(given.place) : hosts, given.place, dose));
    }

    void write(const CaseMove& move) {
        const std::vector<Host>& there = residents_.of(move.from);
        if (there.empty()) {
            fault_.note(base::invalid("an animal leaves an empty enclosure", name_of(move.from),
                                      "an animal in it on that day", "correct the day or the place"),
                        step().pointer);
            return;
        }
        const std::vector<Host> named =
            move.animal > 0 ? hosts_of({move.animal}, move.from, step().pointer) : std::vector{there.back()};
        if (fault_.found()) return;
        if (move.to == scenario::nowhere)
            residents_.leave(step().time, named.front(), move.from);
        else
            residents_.move(step().time, named.front(), move.from, move.to);
    }

    [[nodiscard]] std::vector<Host> hosts_of(const AnimalNumbers& numbers, PlaceIndex place,
                                             const std::string& pointer) {
        const std::vector<Host>& there = residents_.of(place);
        std::vector<Host> hosts;
        for (const int number : numbers) {
            if (static_cast<std::size_t>(number) > there.size()) {
                fault_.note(base::invalid("no such animal in the enclosure on that day",
                                          name_of(place) + ", number " + std::to_string(number),
                                          "at most " + std::to_string(there.size()),
                                          "number those that are there in order of coming"),
                            pointer);
                return {};
            }
            hosts.push_back(there[static_cast<std::size_t>(number) - 1]);
        }
        return hosts;
    }

    /// The same for each of these, nothing for the others of the place.
    template <class Given>
    [[nodiscard]] std::vector<std::vector<Given>> on(const std::vector<Host>& hosts, PlaceIndex place,
                                                     const Given& given) const {
        std::vector<std::vector<Given>> each;
        for (const Host host : residents_.of(place)) {
            each.emplace_back();
            if (std::find(hosts.begin(), hosts.end(), host) != hosts.end()) each.back().push_back(given);
        }
        return each;
    }

    const std::vector<CaseStep>& steps_;
    Scenario& scenario_;
    const mites::FixedParameters& fixed_;
    Fault& fault_;
    Residents residents_;
    std::set<std::pair<double, PlaceIndex>> treated_;
    std::size_t at_ = 0;
};

}  // namespace

void CaseSteps::write(Scenario& scenario, const mites::FixedParameters& fixed) {
    if (fault_.found()) return;
    std::stable_sort(steps_.begin(), steps_.end(),
                     [](const CaseStep& a, const CaseStep& b) { return a.time < b.time; });
    StepWriter(steps_, scenario, fixed, fault_).write();
}

}  // namespace mitefall::formats
