#include "plan/permit_book.h"

#include <boost/container_hash/hash.hpp>
#include <cstddef>
#include <functional>
#include <utility>

#include "branching/side_by_side.h"
#include "plan/emptied.h"

namespace mitefall::plan {

PermitBook::PermitBook(const safety::Case& with) : with_(with), roster_(with) {
    for (auto& answers : answers_)
        answers.max_load_factor(1);  // they are looked into far more than written to
}

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
    auto& answers = answers_[std::hash<const void*>{}(key.who) / alignof(std::max_align_t) % answers_.size()];
    const auto known = answers.find(key);
    if (known != answers.end()) return known->second;
    return answers.emplace(key, ask()).first->second;
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
    const std::vector<AnimalNumber>& present = in_room_[room];
    return find(key_of(&in_room_.find(room)->first, request, proposed_.of(present, course)),
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
    const auto known = free_days_.find(key);
    if (known != free_days_.end()) return known->second;
    const safety::Verdict verdict = safety::judge(with_, who, request, told({animal}, course));
    std::optional<units::Day> day;
    if (safety::permits(verdict))
        day = request.day;
    else if (verdict.ruling == safety::Ruling::wait_until)
        day = verdict.until;
    return free_days_.emplace(key, day).first->second;
}

const safety::WetBook& PermitBook::water_of(EnclosureNumber enclosure, units::Day today) {
    const records::Enclosure& where = roster_.enclosure(enclosure);
    const Key key{&where, nullptr, 0, today, {}};
    const auto known = water_.find(key);
    if (known != water_.end()) return known->second;
    const safety::Inside inside = safety::inside_of(with_.collection, with_.survey, where.id);
    return water_.emplace(key, safety::WetBook(with_.collection, where, inside, {}, today, with_.wet))
        .first->second;
}

Emptied& PermitBook::emptied(const records::EmptiedWood& wood) {
    const auto known = emptied_.find(wood.tub.text());
    if (known != emptied_.end()) return *known->second;
    return *emptied_.emplace(wood.tub.text(), std::make_shared<Emptied>(with_, wood)).first->second;
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
