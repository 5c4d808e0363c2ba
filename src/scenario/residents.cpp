#include "scenario/residents.h"

#include <algorithm>

#include "base/contract.h"

namespace mitefall::scenario {
namespace {

void take_out(std::vector<Host>& hosts, Host host) {
    const auto found = std::find(hosts.begin(), hosts.end(), host);
    base::expects(found != hosts.end(), "an animal leaves where it lives");
    hosts.erase(found);
}

/// Never weaker than `b` as long as `b` lasts.
bool outlasts(const Dose& a, const Dose& b) {
    return a.chance == b.chance && a.part >= 1 && a.until >= b.until;
}

}  // namespace

Residents::Residents(Scenario& scenario)
    : scenario_(scenario), living_(scenario.places.size()), is_told_(scenario.places.size(), false) {
    for (PlaceIndex place = 0; place < living_.size(); ++place) {
        for (int i = 0; i < scenario.places[place].animals; ++i) static_cast<void>(take_in(place));
    }
    for (const Event& event : scenario.events) {
        if (const auto* const join = std::get_if<AnimalJoins>(&event.what)) {
            static_cast<void>(take_in(join->place));
        } else if (const auto* const left = std::get_if<AnimalLeaves>(&event.what)) {
            living_[left->place].pop_back();
        } else if (const auto* const moved = std::get_if<MoveAnimal>(&event.what)) {
            living_[moved->to].push_back(living_[moved->from].back());
            living_[moved->from].pop_back();
        } else if (const auto* const told = std::get_if<Medicated>(&event.what)) {
            is_told_[told->place] = true;
            for (std::size_t i = 0; i < told->animals.size(); ++i)
                blood_[living_[told->place].at(i)] = told->animals[i];
        }
    }
}

Host Residents::take_in(PlaceIndex place) {
    const auto host = static_cast<Host>(blood_.size());
    blood_.emplace_back();
    living_[place].push_back(host);
    return host;
}

Host Residents::join(double time, PlaceIndex place) {
    const Host host = take_in(place);
    scenario_.events.push_back({time, AnimalJoins{place}});
    tell(time, place);
    return host;
}

void Residents::move(double time, Host host, PlaceIndex from, PlaceIndex to) {
    take_out(living_[from], host);
    living_[to].push_back(host);
    scenario_.events.push_back({time, MoveAnimal{from, to}});
    tell(time, from);
    tell(time, to);
}

void Residents::leave(double time, Host host, PlaceIndex place) {
    take_out(living_[place], host);
    scenario_.events.push_back({time, AnimalLeaves{place}});
    tell(time, place);
}

void Residents::dose(double time, PlaceIndex place, const std::vector<std::vector<Dose>>& fresh) {
    const std::vector<Host>& hosts = living_.at(place);
    base::expects(fresh.size() == hosts.size(), "doses for every animal of a place");
    for (std::size_t i = 0; i < hosts.size(); ++i) {
        std::vector<Dose>& doses = blood_[hosts[i]];
        for (const Dose& dose : fresh[i]) {
            if (std::any_of(doses.begin(), doses.end(), [&](const Dose& d) { return outlasts(d, dose); }))
                continue;
            std::erase_if(doses, [&](const Dose& d) { return outlasts(dose, d); });
            doses.push_back(dose);
        }
    }
    tell(time, place);
}

void Residents::tell(double time, PlaceIndex place) {
    Medicated said{place, {}};
    for (const Host host : living_[place]) {
        std::erase_if(blood_[host], [&](const Dose& dose) { return dose.until <= time; });
        said.animals.push_back(blood_[host]);
    }
    if (!said.acts_after(time) && !is_told_[place]) return;
    is_told_[place] = said.acts_after(time);
    scenario_.events.push_back({time, std::move(said)});
}

}  // namespace mitefall::scenario
