#pragma once

#include <vector>

#include "plan/schedule.h"

namespace mitefall::plan {

/// Somebody at risk whom a plan does not reach: mites were seen there, or it has a contact worth treating
/// for.
struct Outside {
    records::EnclosureId enclosure;
    records::RoomId room;
    std::vector<records::AnimalId> animals;  ///< those inside; may be empty
    bool sighted = false;                    ///< mites were seen there
};

/// Where a plan reaches.
struct Reach {
    std::vector<records::RoomId> whole_rooms;  ///< every enclosure of them is in the plan; at least one
    std::vector<Outside> outside;              ///< those with mites first, then by enclosure
};

[[nodiscard]] Reach reach_of(const Assignment& assignment, const Setting& setting);

}  // namespace mitefall::plan
