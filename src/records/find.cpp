#include <fmt/format.h>

#include "records/apply.h"

namespace mitefall::records {
namespace {

using base::Error;
using base::ErrorKind;
using units::show_day;

template <class Kind, class Begins>
Error not_there(std::string_view noun, const base::Id<Kind>& id, const Begins& begins, units::Day day) {
    const auto begin = begins.find(id);
    if (begin == begins.end()) {
        return {ErrorKind::not_found,
                fmt::format("there is no {} of this name", noun),
                id.text(),
                fmt::format("the {} must be on record before a fact names it", noun),
                fmt::format("check the spelling, or add the {} first", noun),
                {}};
    }
    return {ErrorKind::conflict,
            fmt::format("the {} was not there yet on {}", noun, show_day(day)),
            id.text(),
            fmt::format("it is on record from {}", show_day(begin->second)),
            fmt::format("give a later day, or correct the entry that added the {}", noun),
            {}};
}

Error gone(const AnimalId& id, units::Day left, units::Day day) {
    return {ErrorKind::conflict,
            fmt::format("the animal was no longer there on {}", show_day(day)),
            id.text(),
            fmt::format("it left on {}", show_day(left)),
            "give an earlier day, or withdraw the entry that says it left",
            {}};
}

}  // namespace

base::Result<Room*> find_room(const RoomId& id, const Effect& effect) {
    auto& rooms = effect.collection().rooms;
    if (const auto found = rooms.find(id); found != rooms.end()) return &found->second;
    return base::fail(not_there("room", id, effect.fold.rooms_begin, effect.day));
}

base::Result<Enclosure*> find_enclosure(const EnclosureId& id, const Effect& effect) {
    auto& enclosures = effect.collection().enclosures;
    if (const auto found = enclosures.find(id); found != enclosures.end()) return &found->second;
    return base::fail(not_there("enclosure", id, effect.fold.enclosures_begin, effect.day));
}

base::Result<Animal*> find_animal(const AnimalId& id, const Effect& effect) {
    auto& animals = effect.collection().animals;
    if (const auto found = animals.find(id); found != animals.end()) return &found->second;
    const auto left = effect.fold.left_on.find(id);
    if (left != effect.fold.left_on.end()) return base::fail(gone(id, left->second, effect.day));
    return base::fail(not_there("animal", id, effect.fold.animals_begin, effect.day));
}

}  // namespace mitefall::records
