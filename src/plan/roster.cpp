#include "plan/roster.h"

namespace mitefall::plan {

Roster::Roster(const safety::Case& with) : inside_(with.collection.enclosures.size()) {
    for (const auto& [id, animal] : with.collection.animals) {
        animal_of_.emplace(id, AnimalNumber(animals_.size()));
        animals_.push_back(&animal);
    }
    for (const auto& [id, enclosure] : with.collection.enclosures) {
        enclosure_of_.emplace(id, EnclosureNumber(enclosures_.size()));
        enclosures_.push_back(&enclosure);
    }
    for (const auto& [id, animals] : with.survey.inside) {
        const auto enclosure = enclosure_of_.find(id);
        if (enclosure == enclosure_of_.end()) continue;
        for (const records::AnimalId& animal : animals)
            inside_[index_of(enclosure->second)].push_back(number_of(animal));
    }
}

}  // namespace mitefall::plan
