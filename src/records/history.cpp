#include "records/history.h"

#include "records/collection.h"

#include "records/corrections.h"

namespace mitefall::records {
namespace {

/// Stays while they are being read; `open` points at the last stay of each animal that is still here.
struct Stays {
    std::vector<Stay> all;
    std::map<AnimalId, std::size_t> open;

    void begin(const AnimalId& animal, const EnclosureId& enclosure, units::Day day) {
        end(animal, day);
        open[animal] = all.size();
        all.push_back({animal, enclosure, day, std::nullopt});
    }
    void end(const AnimalId& animal, units::Day day) {
        if (const auto found = open.extract(animal)) all[found.mapped()].until = day;
    }
};

}  // namespace

void Whereabouts::follow(const Fact& fact) {
    if (const auto* const arrived = std::get_if<AnimalArrived>(&fact)) {
        places_[arrived->animal] = arrived->enclosure;
    } else if (const auto* const moved = std::get_if<AnimalMoved>(&fact)) {
        places_[moved->animal] = moved->to;
    } else if (const auto* const left = std::get_if<AnimalLeft>(&fact)) {
        places_.erase(left->animal);
    }
}

std::optional<EnclosureId> Whereabouts::of(const AnimalId& animal) const {
    const auto found = places_.find(animal);
    if (found == places_.end()) return std::nullopt;
    return found->second;
}

std::optional<EnclosureId> where_was(std::span<const Entry> journal, const AnimalId& animal, units::Day day) {
    Whereabouts whereabouts;
    for (const Entry* const entry : pick_in_force(journal)) {
        if (entry->day > day) break;
        whereabouts.follow(entry->fact);
    }
    return whereabouts.of(animal);
}

std::vector<Stay> stays(std::span<const Entry> journal) {
    Stays read;
    for (const Entry* const entry : pick_in_force(journal)) {
        if (const auto* const arrived = std::get_if<AnimalArrived>(&entry->fact)) {
            read.begin(arrived->animal, arrived->enclosure, entry->day);
        } else if (const auto* const moved = std::get_if<AnimalMoved>(&entry->fact)) {
            read.begin(moved->animal, moved->to, entry->day);
        } else if (const auto* const left = std::get_if<AnimalLeft>(&entry->fact)) {
            read.end(left->animal, entry->day);
        }
    }
    return std::move(read.all);
}

std::vector<Stay> stays_in(std::span<const Entry> journal, const EnclosureId& enclosure, units::Day from,
                           units::Day to) {
    std::vector<Stay> found = stays(journal);
    std::erase_if(found, [&](const Stay& stay) {
        return stay.enclosure != enclosure || stay.from > to || (stay.until && *stay.until < from);
    });
    return found;
}

std::optional<units::Day> first_day(std::span<const Entry> journal) {
    std::optional<units::Day> first;
    for (const Entry& entry : in_force(journal)) {
        if (!std::holds_alternative<Withdrawn>(entry.fact))
            first = std::min(first.value_or(entry.day), entry.day);
    }
    return first;
}

}  // namespace mitefall::records
