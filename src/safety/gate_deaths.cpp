#include <algorithm>

#include "safety/deaths.h"
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

bool is_in_its_room(const records::Collection& collection, const Animal& animal, const Death& death) {
    const auto& enclosures = collection.enclosures;
    return enclosures.at(animal.enclosure).room == enclosures.at(death.died.value.enclosure).room;
}

/// Of one that was treated the whole room is its company: what it was given the others are given, too.
bool is_company(const Animal& animal, const Death& death, const records::Collection& collection,
                const evidence::Tables& tables) {
    if (death.answered) return false;
    const units::Day since = death.died.day - units::at_least_days(tables.time("death_look_back").value);
    return shared_its_place(animal, death, since) ||
           (was_treated(death, since) && is_in_its_room(collection, animal, death));
}

}  // namespace

std::vector<records::AnimalId> company_of(const Death& death, const records::Collection& collection,
                                          const evidence::Tables& tables) {
    std::vector<records::AnimalId> company;
    for (const auto& [id, animal] : collection.animals) {
        if (is_company(animal, death, collection, tables)) company.push_back(id);
    }
    return company;
}

void check_deaths(const Question& question, Findings& findings) {
    const records::Method method = question.request.method;
    if (agent_of(method) == Agent::none || target_of(method) == Target::room) return;
    const evidence::Tables& tables = question.with.tables;
    for (const Death& death : question.with.collection.deaths) {
        if (!is_company(question.animal, death, question.with.collection, tables)) continue;
        refuse(findings, tables, says::death_in_company(named(death.died.value), death.died.day),
               says::look_into_death())
            .since = records::Dated{death.died.day, death.died.entry};
    }
}

}  // namespace mitefall::safety
