#include "records/given.h"

#include <algorithm>

#include "records/history.h"

namespace mitefall::records {
namespace {

using units::Day;

base::Error never_here(const AnimalId& animal) {
    return {
        base::ErrorKind::not_found, "no such animal", animal.text(), {}, "look it up among the animals", {}};
}

bool names(const std::vector<AnimalId>& animals, const AnimalId& animal) {
    return std::find(animals.begin(), animals.end(), animal) != animals.end();
}

/// Which entries concern the animal and the places it lived in, each on the days it was there.
class Concerns {
  public:
    Concerns(const AnimalId& animal, std::span<const Entry> journal, const Collection& collection)
        : animal_(animal), stays_(records::stays(journal)), collection_(collection) {
        std::erase_if(stays_, [&](const Stay& stay) { return stay.animal != animal; });
    }

    [[nodiscard]] bool holds(const Entry& entry) const {
        return std::visit([&](const auto& fact) { return of(fact, entry.day); }, entry.fact);
    }

  private:
    [[nodiscard]] bool lived_in(const EnclosureId& place, Day day) const {
        return std::any_of(stays_.begin(), stays_.end(), [&](const Stay& stay) {
            return stay.enclosure == place && stay.from <= day && (!stay.until || day <= *stay.until);
        });
    }

    [[nodiscard]] bool lived_in_room(const RoomId& room, Day day) const {
        return std::any_of(stays_.begin(), stays_.end(), [&](const Stay& stay) {
            const auto place = collection_.enclosures.find(stay.enclosure);
            return place != collection_.enclosures.end() && place->second.room == room &&
                   lived_in(stay.enclosure, day);
        });
    }

    [[nodiscard]] bool of(const Treated& fact, Day day) const {
        const bool is_of_others = !fact.animals.empty() && !row_of(fact.method).is_spray;
        return names(fact.animals, animal_) || (!is_of_others && lived_in(fact.enclosure, day));
    }
    [[nodiscard]] bool of(const RoomTreated& fact, Day day) const { return lived_in_room(fact.room, day); }
    [[nodiscard]] bool of(const SubstrateChanged& fact, Day day) const {
        return lived_in(fact.enclosure, day);
    }
    [[nodiscard]] bool of(const PaperWetted& fact, Day day) const { return lived_in(fact.enclosure, day); }
    [[nodiscard]] bool of(const WaterMoved& fact, Day day) const { return lived_in(fact.enclosure, day); }
    [[nodiscard]] bool of(const Sighted& fact, Day day) const { return lived_in(fact.enclosure, day); }
    [[nodiscard]] bool of(const Checked& fact, Day day) const { return lived_in(fact.enclosure, day); }
    template <class Fact>
    [[nodiscard]] bool of(const Fact& fact, Day) const {
        if constexpr (requires { fact.animal; }) return fact.animal == animal_;
        return false;
    }

    const AnimalId& animal_;
    std::vector<Stay> stays_;
    const Collection& collection_;
};

/// Who it was, and the day it left or died.
Given head_of(const AnimalId& animal, std::span<const Entry> journal, Day today) {
    Given given;
    given.to = today;
    for (const Entry& entry : journal) {
        if (const auto* const arrived = std::get_if<AnimalArrived>(&entry.fact)) {
            if (arrived->animal != animal) continue;
            given.animal = animal;
            given.name = arrived->name;
            given.taxon = arrived->taxon;
            given.to = today;
            given.died.reset();
        } else if (const auto* const left = std::get_if<AnimalLeft>(&entry.fact)) {
            if (left->animal != animal) continue;
            given.to = entry.day;
            if (left->how == LeftHow::died) given.died = entry.day;
        }
    }
    return given;
}

}  // namespace

base::Result<Given> given_to(const AnimalId& animal, std::span<const Entry> journal,
                             const Collection& collection, units::Days look_back) {
    const std::vector<Entry> all = in_force(journal);
    Given given = head_of(animal, all, collection.day);
    if (given.animal.empty()) return base::fail(never_here(animal));
    given.from = given.to - look_back;
    const Concerns concerns(animal, all, collection);
    for (const Entry& entry : all) {
        if (entry.day >= given.from && entry.day <= given.to && concerns.holds(entry))
            given.entries.push_back(entry);
    }
    return given;
}

}  // namespace mitefall::records
