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

Applied apply_entry(const Entry& entry, Fold& fold) {
    const Effect effect{fold, entry.day, entry.id};
    return std::visit([&]<class T>(const T& fact) { return T::apply(fact, effect); }, entry.fact);
}

}  // namespace

// A fact that is refused changes nothing: each `apply` looks at everything before it writes.
std::vector<Contradiction> contradictions_in(std::span<const Entry* const> entries) {
    Fold fold;
    note_begins(fold, entries);
    std::vector<Contradiction> found;
    for (const Entry* const entry : entries) {
        if (const Applied applied = apply_entry(*entry, fold); !applied)
            found.push_back({entry, applied.error()});
    }
    return found;
}

tl::expected<Collection, Contradiction> try_fold(std::span<const Entry* const> entries, units::Day until) {
    auto folded = try_folds(entries, {&until, 1});
    if (!folded) return tl::unexpected(std::move(folded.error()));
    return std::move(folded->front());
}

tl::expected<std::vector<Collection>, Contradiction> try_folds(std::span<const Entry* const> entries,
                                                               std::span<const units::Day> days) {
    Fold fold;
    note_begins(fold, entries);
    std::vector<Collection> folded;
    auto entry = entries.begin();
    for (const units::Day day : days) {
        for (; entry != entries.end() && (*entry)->day <= day; ++entry) {
            const Applied applied = apply_entry(**entry, fold);
            if (!applied) return tl::unexpected(Contradiction{*entry, applied.error()});
        }
        fold.collection.day = day;
        const bool is_last = folded.size() + 1 == days.size();
        folded.push_back(is_last ? std::move(fold.collection) : Collection(fold.collection));
    }
    return folded;
}

}  // namespace mitefall::records
