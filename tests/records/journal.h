#pragma once

#include "records/collection.h"

namespace mitefall::records {

using units::Day;

inline Day day(int month, int date) {
    return Day(std::chrono::year(2026) / std::chrono::month(static_cast<unsigned>(month)) /
               std::chrono::day(static_cast<unsigned>(date)));
}

inline const Climate warm{units::celsius(29), units::celsius(25), units::relative_humidity_percent(60)};

/// A journal written line by line, each line checked as a keeper's would be.
class Journal {
  public:
    Day today = day(12, 31);

    base::Result<void> try_add(Day when, Fact fact, std::optional<FactId> corrects = {}) {
        Entry entry{next_, when, "2026-12-31T00:00:00Z", std::move(fact), corrects};
        auto good = check_fact(entries, entry, today);
        if (!good) return good;
        entries.push_back(std::move(entry));
        ++next_;
        return good;
    }

    FactId add(Day when, Fact fact, std::optional<FactId> corrects = {}) {
        if (auto good = try_add(when, std::move(fact), corrects); !good)
            throw std::runtime_error(good.error().message());
        return next_ - 1;
    }

    std::vector<Entry> entries;

  private:
    FactId next_ = 1;
};

inline RoomAdded room(const char* id, std::vector<RoomId> adjoining = {}) {
    return {RoomId(id), id, warm, std::move(adjoining), units::square_metres(12)};
}
inline EnclosureAdded tub(const char* id, const char* in = "snakes") {
    return {EnclosureId(id),
            id,
            RoomId(in),
            Material::sealed,
            Substrate::loose,
            warm,
            units::square_centimetres(4000)};
}
inline AnimalArrived snake(const char* id, const char* in) {
    return {AnimalId(id), id, "Python regius", "hatched here", EnclosureId(in), false};
}

/// One room, two tubs, one snake in each, all entered on one day (entries 1 to 5).
inline Journal small_collection() {
    Journal journal;
    journal.add(day(1, 1), room("snakes"));
    journal.add(day(1, 1), tub("a"));
    journal.add(day(1, 1), tub("b"));
    journal.add(day(1, 1), snake("pim", "a"));
    journal.add(day(1, 1), snake("juno", "b"));
    return journal;
}

}  // namespace mitefall::records
