#pragma once

#include <map>
#include <span>

#include "forecast/forecast.h"
#include "forecast/scenario.h"
#include "records/collection.h"

namespace mitefall::forecast {

/// A scenario made from records, what was seen in it, and where the keeper's places stand.
struct RecordedCase {
    Scenario scenario;
    units::Day origin;  ///< day 0
    SightedStart start;
    double from = 0;  ///< day of the last sighting: what happened since is known, what was there is inferred
    std::map<records::EnclosureId, PlaceIndex> enclosures;
    std::map<records::RoomId, PlaceIndex> rooms;

    [[nodiscard]] double time_of(units::Day day) const { return static_cast<double>((day - origin).count()); }
};

/// Everything on record from `origin` to `today` that moves, carries or kills mites or looked for them in
/// vain; no start. Places are those known today; facts of one day keep their order.
[[nodiscard]] RecordedCase recorded_since(std::span<const records::Entry> journal, units::Day today,
                                          units::Day origin, const FixedParameters& fixed);

/// Everything on record up to `today` that moves, carries or kills mites or looked for them in vain, and the
/// latest sighting of each enclosure within `look_back`. An animal of a sighted enclosure that arrived within
/// that time is taken to have brought the mites on its first day; without one they came in `look_back` before
/// the sighting (assumption M5). Places are those known today; facts of one day keep their order. Error:
/// not_found when no sighting is recent enough.
[[nodiscard]] base::Result<RecordedCase> case_from_records(std::span<const records::Entry> journal,
                                                           units::Day today, units::TimeSpan look_back,
                                                           const FixedParameters& fixed);

}  // namespace mitefall::forecast
