#include "tables/gather.h"

#include <algorithm>
#include <string_view>

#include "tables/cells.h"

namespace mitefall::tables {
namespace {

/// The plain letter of Latin letters with accents, U+00C0 to U+00FF in small letters and without signs.
char plain_letter(unsigned char last) {
    constexpr std::string_view plain = "aaaaaaaceeeeiiiidnooooo-ouuuuytsaaaaaaaceeeeiiiidnooooo-ouuuuyty";
    return last >= 0x80 && last <= 0xBF ? plain[last - 0x80U] : '-';
}

std::string letters_and_hyphens(const std::string& name) {
    std::string plain;
    for (std::size_t i = 0; i < name.size(); ++i) {
        char c = name[i];
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == '\xC3' && i + 1 < name.size()) c = plain_letter(static_cast<unsigned char>(name[++i]));
        const bool is_kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (is_kept)
            plain += c;
        else if (!plain.empty() && plain.back() != '-')
            plain += '-';
    }
    return plain;
}

void drop_end_hyphens(std::string& text) {
    while (text.ends_with('-')) text.pop_back();
}

}  // namespace

std::string short_name(const std::string& name, const std::set<std::string>& taken) {
    constexpr std::size_t longest = 35;  // leaves room for a number
    std::string base = letters_and_hyphens(name).substr(0, longest);
    drop_end_hyphens(base);
    if (base.empty()) base = "x";
    if (!taken.contains(base)) return base;
    int number = 2;
    while (taken.contains(base + "-" + std::to_string(number))) ++number;
    return base + "-" + std::to_string(number);
}

void Shelf::put(const std::string& id, const std::string& name) {
    ids_.insert(id);
    by_name_[folded(id)] = id;
    by_name_[folded(name)] = id;
}

std::optional<std::string> Shelf::find(const std::string& name) const {
    const auto found = by_name_.find(folded(name));
    return found == by_name_.end() ? std::nullopt : std::optional(found->second);
}

std::string Shelf::make(const std::string& name) {
    const std::string id = short_name(name, ids_);
    ids_.insert(id);
    by_name_[folded(name)] = id;
    return id;
}

OnRecord::OnRecord(const std::vector<records::Entry>& journal, units::Day day) : today(day) {
    const records::Collection now = records::collection_on(journal, day);
    for (const auto& [id, room] : now.rooms) rooms.put(id.text(), room.name);
    for (const auto& [id, enclosure] : now.enclosures) enclosures.put(id.text(), enclosure.name);
    for (const auto& [id, animal] : now.animals) animals.put(id.text(), animal.name);
    for (const records::Entry& entry : journal) {
        if (const auto* const room = std::get_if<records::RoomAdded>(&entry.fact))
            room_since[room->room.text()] = entry.day;
        if (const auto* const tub = std::get_if<records::EnclosureAdded>(&entry.fact))
            enclosure_since[tub->enclosure.text()] = entry.day;
        // A new animal of the name of one that left is another animal, with a record of its own.
        if (const auto* const animal = std::get_if<records::AnimalArrived>(&entry.fact))
            animals.reserve(animal->animal.text());
    }
}

std::string Gatherer::room(const std::string& name, const records::RoomAdded& kind) {
    if (const auto found = known_.rooms.find(name)) return *found;
    records::RoomAdded added = kind;
    added.room = records::RoomId(known_.rooms.make(name));
    added.name = std::string(trimmed(name));
    rooms_.push_back({row, known_.today, added});
    return added.room.text();
}

std::string Gatherer::enclosure(const std::string& name, const std::string& room,
                                const records::EnclosureAdded& kind) {
    if (const auto found = known_.enclosures.find(name)) return *found;
    records::EnclosureAdded added = kind;
    added.enclosure = records::EnclosureId(known_.enclosures.make(name));
    added.name = std::string(trimmed(name));
    added.room = records::RoomId(room);
    enclosures_.push_back({row, known_.today, added});
    room_of_[added.enclosure.text()] = room;
    return added.enclosure.text();
}

std::string Gatherer::animal(const std::string& name, records::AnimalArrived arrived,
                             std::optional<units::Day> day) {
    arrived.animal = records::AnimalId(known_.animals.make(name));
    arrived.name = std::string(trimmed(name));
    animals_.push_back({row, day.value_or(known_.today), arrived});
    return arrived.animal.text();
}

void Gatherer::weight(const std::string& animal, units::Mass mass) {
    weights_.push_back({row, known_.today, records::Weighed{records::AnimalId(animal), mass}});
}

Counts Gatherer::counts() const {
    return {rooms_.size(), enclosures_.size(), animals_.size(), weights_.size()};
}

units::Day Gatherer::stands_from(const std::string& enclosure) const {
    constexpr units::Day always{units::Days(0)};
    if (const auto known = known_.enclosure_since.find(enclosure); known != known_.enclosure_since.end())
        return known->second;
    const auto room = room_of_.find(enclosure);
    if (room == room_of_.end()) return always;
    const auto since = known_.room_since.find(room->second);
    return since == known_.room_since.end() ? always : since->second;
}

std::vector<Gathered> Gatherer::in_order() const {
    units::Day first = known_.today;
    for (const Gathered& one : animals_) first = std::min(first, one.day);
    std::vector<Gathered> all = rooms_;
    for (Gathered& one : all) one.day = first;
    for (Gathered one : enclosures_) {
        const auto since = known_.room_since.find(std::get<records::EnclosureAdded>(one.fact).room.text());
        one.day = since == known_.room_since.end() ? first : std::max(first, since->second);
        all.push_back(std::move(one));
    }
    std::vector<Gathered> animals = animals_;
    for (Gathered& one : animals)
        one.day = std::max(one.day, stands_from(std::get<records::AnimalArrived>(one.fact).enclosure.text()));
    std::stable_sort(animals.begin(), animals.end(),
                     [](const Gathered& a, const Gathered& b) { return a.day < b.day; });
    all.insert(all.end(), animals.begin(), animals.end());
    all.insert(all.end(), weights_.begin(), weights_.end());
    return all;
}

}  // namespace mitefall::tables
