#pragma once

#include "records/fold.h"

// What each kind of fact does to the collection, or why it cannot have happened.
namespace mitefall::records {

/// Where and when a fact takes effect.
struct Effect {
    Fold& fold;
    units::Day day;
    FactId entry = 0;

    [[nodiscard]] Collection& collection() const { return fold.collection; }
    template <class T>
    [[nodiscard]] DatedValue<T> dated(T value) const {
        return {day, entry, std::move(value)};
    }
};

/// Was it done around whoever lives in the enclosure, named or not?
[[nodiscard]] bool is_around_animals(const Treated& fact);
/// Adds it to what was done around the animal, once, oldest first.
void note_exposure(Animal& animal, const DatedValue<Treated>& around);

// The named thing as it stands, or an error that says since when it exists or when it left.
[[nodiscard]] base::Result<Room*> find_room(const RoomId& id, const Effect& effect);
[[nodiscard]] base::Result<Enclosure*> find_enclosure(const EnclosureId& id, const Effect& effect);
[[nodiscard]] base::Result<Animal*> find_animal(const AnimalId& id, const Effect& effect);

}  // namespace mitefall::records
