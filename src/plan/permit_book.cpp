#include "plan/permit_book.h"

#include <cstring>
#include <utility>

#include "plan/emptied.h"

namespace mitefall::plan {
namespace {

template <class T>
void append(std::string& key, const T& value) {
    char raw[sizeof(T)];
    std::memcpy(raw, &value, sizeof(T));
    key.append(raw, sizeof(T));
}

std::string key_of(char kind, const std::string& name, const safety::Request& request) {
    std::string key;
    key.reserve(name.size() + 48);
    key += kind;
    append(key, static_cast<int>(request.method));
    append(key, units::in_milligrams_per_litre(request.strength));
    append(key, request.day.time_since_epoch().count());
    append(key, name.size());
    key += name;
    return key;
}

void append_course(std::string& key, const records::AnimalId& animal, const safety::CourseSoFar& course) {
    key += '|';
    const auto proposed = course.find(animal);
    if (proposed == course.end()) return;
    for (const safety::Application& application : proposed->second) {
        append(key, static_cast<int>(application.method));
        append(key, application.day.time_since_epoch().count());
    }
}

}  // namespace

template <class Ask>
const PermitBook::Answer& PermitBook::find(std::string key, Ask ask) {
    const auto known = answers_.find(key);
    if (known != answers_.end()) return *known->second;
    return *answers_.emplace(std::move(key), std::make_shared<const Answer>(ask())).first->second;
}

const PermitBook::Answer& PermitBook::animal(const records::AnimalId& id, const safety::Request& request,
                                             const safety::CourseSoFar& course) {
    std::string key = key_of('a', id.text(), request);
    append_course(key, id, course);
    return find(std::move(key), [&] { return safety::permit(with_, id, request, course); });
}

std::optional<units::Day> PermitBook::free_from(const records::AnimalId& id, const safety::Request& request,
                                                const safety::CourseSoFar& course) {
    std::string key = key_of('a', id.text(), request);
    append_course(key, id, course);
    const auto known = free_days_.find(key);
    if (known != free_days_.end()) return known->second;
    const safety::Verdict verdict = safety::judge(with_, with_.collection.animals.at(id), request, course);
    std::optional<units::Day> day;
    if (safety::permits(verdict))
        day = request.day;
    else if (verdict.ruling == safety::Ruling::wait_until)
        day = verdict.until;
    return free_days_.emplace(std::move(key), day).first->second;
}

const PermitBook::Answer& PermitBook::enclosure(const records::EnclosureId& id,
                                                const safety::Request& request,
                                                const safety::CourseSoFar& course) {
    std::string key = key_of('e', id.text(), request);
    const auto found = with_.survey.inside.find(id);
    if (found != with_.survey.inside.end()) {
        for (const records::AnimalId& animal : found->second) append_course(key, animal, course);
    }
    return find(std::move(key), [&] { return safety::permit_enclosure(with_, id, request, course); });
}

const PermitBook::Answer& PermitBook::room(const records::RoomId& id, const safety::Request& request,
                                           const safety::CourseSoFar& course) {
    std::string key = key_of('r', id.text(), request);
    const auto found = in_room_.find(id);
    if (found != in_room_.end()) {
        for (const records::AnimalId& animal : found->second) append_course(key, animal, course);
    }
    return find(std::move(key), [&] { return safety::permit_room(with_, id, request, course); });
}

Emptied& PermitBook::emptied(const records::EmptiedWood& wood) {
    const auto known = emptied_.find(wood.tub.text());
    if (known != emptied_.end()) return *known->second;
    return *emptied_.emplace(wood.tub.text(), std::make_shared<Emptied>(with_, wood)).first->second;
}

std::map<records::RoomId, std::vector<records::AnimalId>> PermitBook::animals_by_room() const {
    std::map<records::RoomId, std::vector<records::AnimalId>> animals;
    for (const auto& [id, inside] : with_.survey.inside) {
        const auto enclosure = with_.collection.enclosures.find(id);
        if (enclosure == with_.collection.enclosures.end()) continue;
        auto& here = animals[enclosure->second.room];
        here.insert(here.end(), inside.begin(), inside.end());
    }
    return animals;
}

}  // namespace mitefall::plan
