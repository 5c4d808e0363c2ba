#include <algorithm>

#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

using records::EnclosureId;

/// Mites were seen there, may have come there, or the course treats it.
bool is_concerned(const Workday& day, const EnclosureId& enclosure) {
    const auto& treated = day.assignment().enclosures;
    return day.danger().sighted.contains(enclosure) || day.danger().exposed.contains(enclosure) ||
           std::find(treated.begin(), treated.end(), enclosure) != treated.end();
}

bool is_gravid(const records::Animal& animal) {
    return std::any_of(animal.conditions.begin(), animal.conditions.end(),
                       [](const auto& noted) { return noted.value.condition == records::Condition::gravid; });
}

}  // namespace

std::vector<Note> breeding(const Workday& day) {
    std::vector<Note> notes;
    std::vector<records::AnimalId> gravid;
    for (const auto& [id, animal] : day.collection().animals) {
        if (is_gravid(animal) && is_concerned(day, animal.enclosure)) gravid.push_back(id);
    }
    if (!gravid.empty()) notes.push_back({work::gravid_here(day.names_of(gravid)), gravid});
    for (const auto& [id, enclosure] : day.collection().enclosures) {
        if (!enclosure.eggs || !is_concerned(day, id)) continue;
        notes.push_back({work::eggs_here(day.name_of(id)), {}});
        notes.push_back({work::hatchlings_here(day.name_of(id)), {}});
    }
    return notes;
}

}  // namespace mitefall::worklist::rules
