#include "records/fold.h"

#include "records/apply.h"

namespace mitefall::records {
namespace {

template <class Id>
void note_begin(std::map<Id, units::Day>& begins, const Id& id, units::Day day) {
    begins.emplace(id, day);  // entries come in order of days, so the first one stays
}

void note_begins(Fold& fold, std::span<const Entry* const> entries) {
    for (const Entry* const entry : entries) {
        if (const auto* const room = std::get_if<RoomAdded>(&entry->fact)) {
            note_begin(fold.rooms_begin, room->room, entry->day);
        } else if (const auto* const enclosure = std::get_if<EnclosureAdded>(&entry->fact)) {
            note_begin(fold.enclosures_begin, enclosure->enclosure, entry->day);
        } else if (const auto* const animal = std::get_if<AnimalArrived>(&entry->fact)) {
            note_begin(fold.animals_begin, animal->animal, entry->day);
        }
    }
}

}  // namespace

tl::expected<Collection, Contradiction> try_fold(std::span<const Entry* const> entries, units::Day until) {
    Fold fold;
    note_begins(fold, entries);
    fold.collection.day = until;
    for (const Entry* const entry : entries) {
        if (entry->day > until) break;
        const Effect effect{fold, entry->day, entry->id};
        const Applied applied =
            std::visit([&](const auto& fact) { return apply(fact, effect); }, entry->fact);
        if (!applied) return tl::unexpected(Contradiction{entry, applied.error()});
    }
    return std::move(fold.collection);
}

}  // namespace mitefall::records
