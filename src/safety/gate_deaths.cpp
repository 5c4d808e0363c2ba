#include <algorithm>

#include "safety/gates.h"
#include "safety/methods.h"
#include "units/whole_days.h"

// An animal died, and nobody knows yet of what: its company is not sprayed until somebody says on.
namespace mitefall::safety {
namespace {

using records::Animal;
using records::Death;

/// Something against mites was given to it, or around it, shortly before.
bool was_treated(const Death& death, units::Day since) {
    const auto is_late = [&](const auto& one) {
        return one.day >= since && agent_of(one.value.method) != Agent::none;
    };
    const Animal& dead = death.died.value;
    return std::any_of(dead.treatments.begin(), dead.treatments.end(), is_late) ||
           std::any_of(dead.exposures.begin(), dead.exposures.end(), is_late);
}

/// It lives where the dead one lived, or lived there with it.
bool shared_its_place(const Animal& animal, const Death& death, units::Day since) {
    if (animal.enclosure == death.died.value.enclosure) return true;
    return std::any_of(animal.stays.begin(), animal.stays.end(), [&](const records::Residence& stay) {
        return stay.enclosure == death.died.value.enclosure && (!stay.until || *stay.until >= since);
    });
}

bool is_in_its_room(const Case& with, const Animal& animal, const Death& death) {
    const auto& enclosures = with.collection.enclosures;
    return enclosures.at(animal.enclosure).room == enclosures.at(death.died.value.enclosure).room;
}

}  // namespace

/// Of one that was treated the whole room is its company: what it was given the others are given, too.
void check_deaths(const Question& question, Findings& findings) {
    const records::Method method = question.request.method;
    if (agent_of(method) == Agent::none || target_of(method) == Target::room) return;
    const evidence::Tables& tables = question.with.tables;
    const units::Days look_back = units::at_least_days(tables.time("death_look_back").value);
    for (const Death& death : question.with.collection.deaths) {
        if (death.answered) continue;
        const units::Day since = death.died.day - look_back;
        const bool is_company =
            shared_its_place(question.animal, death, since) ||
            (was_treated(death, since) && is_in_its_room(question.with, question.animal, death));
        if (!is_company) continue;
        refuse(findings, tables, says::death_in_company(named(death.died.value), death.died.day),
               says::look_into_death())
            .since = records::Dated{death.died.day, death.died.entry};
    }
}

}  // namespace mitefall::safety
