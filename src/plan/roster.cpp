#include "plan/roster.h"

namespace mitefall::plan {

Roster::Roster(const safety::Case& with) {
    for (const auto& [id, animal] : with.collection.animals) add(animal);
    for (const auto& [id, enclosure] : with.collection.enclosures) add(enclosure);
    for (const auto& [id, animals] : with.survey.inside) house(id, animals);
}

Roster::Roster(const safety::Case& with, const std::set<records::EnclosureId>& only) {
    std::set<records::AnimalId> animals;
    for (const records::EnclosureId& id : only) {
        const auto enclosure = with.collection.enclosures.find(id);
        if (enclosure != with.collection.enclosures.end()) add(enclosure->second);
        const auto inside = with.survey.inside.find(id);
        if (inside != with.survey.inside.end()) animals.insert(inside->second.begin(), inside->second.end());
    }
    for (const records::AnimalId& id : animals) add(with.collection.animals.at(id));
    for (const records::EnclosureId& id : only) {
        const auto inside = with.survey.inside.find(id);
        if (inside != with.survey.inside.end()) house(id, inside->second);
    }
}

void Roster::add(const records::Animal& animal) {
    animal_of_.emplace(animal.id, AnimalNumber(animals_.size()));
    animals_.push_back(&animal);
}

void Roster::add(const records::Enclosure& enclosure) {
    enclosure_of_.emplace(enclosure.id, EnclosureNumber(enclosures_.size()));
    enclosures_.push_back(&enclosure);
    inside_.emplace_back();
}

void Roster::house(const records::EnclosureId& id, const std::vector<records::AnimalId>& animals) {
    const auto enclosure = enclosure_of_.find(id);
    if (enclosure == enclosure_of_.end()) return;
    for (const records::AnimalId& animal : animals)
        inside_[index_of(enclosure->second)].push_back(number_of(animal));
}

}  // namespace mitefall::plan
