#include "plan/permit_book.h"

#include <boost/container_hash/hash.hpp>
#include <cstddef>
#include <functional>
#include <utility>

#include "base/contract.h"
#include "branching/side_by_side.h"
#include "plan/emptied.h"

namespace mitefall::plan {

namespace {

/// What stands under the key, made by `make` if nothing does.
template <class Map, class Key, class Make>
auto& find_or_make(Map& map, const Key& key, Make make) {
    const auto known = map.find(key);
    return known != map.end() ? known->second : map.emplace(key, make()).first->second;
}

}  // namespace

PermitBook::PermitBook(const safety::Case& with) : with_(with), roster_(with), in_room_(animals_by_room()) {
    for (auto& answers : answers_)
        answers.max_load_factor(1);  // they are looked into far more than written to
}

PermitBook::PermitBook(const safety::Case& with, std::set<records::EnclosureId> only)
    : with_(with), only_(std::move(only)), roster_(with, *only_) {}

PermitBook::~PermitBook() {
    static_cast<void>(
        branching::side_by_side(answers_.size(), {}, [&](std::size_t i) { answers_[i].clear(); }));
}

std::size_t PermitBook::HashOfKey::operator()(const Key& key) const {
    std::size_t hash = 0;
    boost::hash_combine(hash, key.who);
    boost::hash_combine(hash, key.proposed);
    boost::hash_combine(hash, key.strength);
    boost::hash_combine(hash, key.day.time_since_epoch().count());
    boost::hash_combine(hash, static_cast<int>(key.method));
    return hash;
}

PermitBook::Key PermitBook::key_of(const void* who, const safety::Request& request,
                                   const Proposed* proposed) {
    return {who, proposed, units::in_milligrams_per_litre(request.strength), request.day, request.method};
}

template <class Ask>
const PermitBook::Answer& PermitBook::find(const Key& key, Ask ask) {
    const std::size_t part = std::hash<const void*>{}(key.who) / alignof(std::max_align_t) % answers_.size();
    return find_or_make(answers_[part], key, ask);
}

safety::CourseSoFar PermitBook::told(const std::vector<AnimalNumber>& animals,
                                     const ProposedCourse& course) const {
    safety::CourseSoFar told;
    for (const AnimalNumber animal : animals) {
        if (const Proposed* const proposed = course[index_of(animal)])
            told.emplace(roster_.animal(animal).id, applications_of(proposed));
    }
    return told;
}

const PermitBook::Answer& PermitBook::animal(AnimalNumber animal, const safety::Request& request,
                                             const ProposedCourse& course) {
    const records::Animal& who = roster_.animal(animal);
    return find(key_of(&who, request, course[index_of(animal)]),
                [&] { return safety::permit(with_, who.id, request, told({animal}, course)); });
}

const PermitBook::Answer& PermitBook::enclosure(EnclosureNumber enclosure, const safety::Request& request,
                                                const ProposedCourse& course) {
    const records::Enclosure& where = roster_.enclosure(enclosure);
    const std::vector<AnimalNumber>& inside = roster_.inside(enclosure);
    return find(key_of(&where, request, proposed_.of(inside, course)),
                [&] { return safety::permit_enclosure(with_, where.id, request, told(inside, course)); });
}

const PermitBook::Answer& PermitBook::room(const records::RoomId& room, const safety::Request& request,
                                           const ProposedCourse& course) {
    const auto here = in_room_.find(room);
    base::expects(here != in_room_.end(), "a permit is asked for a room of the collection");
    const std::vector<AnimalNumber>& present = here->second;
    return find(key_of(&here->first, request, proposed_.of(present, course)),
                [&] { return safety::permit_room(with_, room, request, told(present, course)); });
}

const PermitBook::Answer& PermitBook::animal(const records::AnimalId& id, const safety::Request& request) {
    return animal(roster_.number_of(id), request, ProposedCourse(roster_.animal_count()));
}

const PermitBook::Answer& PermitBook::enclosure(const records::EnclosureId& id,
                                                const safety::Request& request) {
    return enclosure(roster_.number_of(id), request, ProposedCourse(roster_.animal_count()));
}

std::optional<units::Day> PermitBook::free_from(AnimalNumber animal, const safety::Request& request,
                                                const ProposedCourse& course) {
    const records::Animal& who = roster_.animal(animal);
    const Key key = key_of(&who, request, course[index_of(animal)]);
    return find_or_make(free_days_, key, [&]() -> std::optional<units::Day> {
        const safety::Verdict verdict = safety::judge(with_, who, request, told({animal}, course));
        if (safety::permits(verdict)) return request.day;
        if (verdict.ruling == safety::Ruling::wait_until) return verdict.until;
        return std::nullopt;
    });
}

const safety::WetBook& PermitBook::water_of(EnclosureNumber enclosure, units::Day today) {
    const records::Enclosure& where = roster_.enclosure(enclosure);
    return find_or_make(water_, Key{&where, nullptr, 0, today, {}}, [&] {
        const safety::Inside inside = safety::inside_of(with_.collection, with_.survey, where.id);
        return safety::WetBook(with_.collection, where, inside, {}, today, with_.wet);
    });
}

Emptied& PermitBook::emptied(const records::EmptiedWood& wood) {
    return *find_or_make(emptied_, wood.tub.text(),
                         [&] { return std::make_shared<Emptied>(with_, wood, only_); });
}

std::map<records::RoomId, std::vector<AnimalNumber>> PermitBook::animals_by_room() const {
    std::map<records::RoomId, std::vector<AnimalNumber>> animals;
    for (const auto& [id, room] : with_.collection.rooms) animals[id];
    for (const auto& [id, enclosure] : with_.collection.enclosures) {
        auto& here = animals[enclosure.room];
        const std::vector<AnimalNumber>& inside = roster_.inside(roster_.number_of(id));
        here.insert(here.end(), inside.begin(), inside.end());
    }
    return animals;
}

}  // namespace mitefall::plan
