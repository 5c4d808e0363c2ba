#pragma once

#include "clearance/standing.h"
#include "records/vocabulary.h"

namespace mitefall::clearance {

/// Looking in every enclosure again and again, while nobody knows of any mites.
struct Routine {
    records::CheckMethod method = records::CheckMethod::paper_trap;
    double every = 30;  ///< days
};

/// Where a mite may come in: one place of many that are alike.
struct Entrance {
    scenario::PlaceIndex place = 0;
    double weight = 1;  ///< how many of them there are
};

struct NoticeRequest {
    const scenario::Scenario* scenario = nullptr;  ///< places and animals as they are; nothing more is done
    const mites::Ensemble* ensemble = nullptr;
    double from = 0;                  ///< days; the mite comes in
    double within = 30;               ///< days, above 0
    std::vector<Entrance> entrances;  ///< at least one
    std::vector<Routine> routines;
    std::size_t blocks = 0;  ///< as in Standing
    Progress progress;
};

struct Noticed {
    Routine routine;
    base::Band chance;  ///< that some look shows something, if mites are alive at the end of the time
};

/// The chance that one seeking female that came in unnoticed is noticed in time: P(some look is not clean and
/// not clear) / P(not clear), over entrances and over the day of the routine on which she comes, each alike.
/// Only looks where she came in count. nullopt if cancelled.
[[nodiscard]] std::optional<std::vector<Noticed>> notice(const NoticeRequest& request);

}  // namespace mitefall::clearance
