#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/vocabulary.h"
#include "evidence/tables.h"
#include "records/collection.h"
#include "statement/statement.h"

namespace mitefall::exposure {

enum class StepKind {
    sighted,        ///< mites were seen here; every path of a sighting begins so
    outside,        ///< something may have come in here from outside; every path without a sighting begins so
    moved_from,     ///< an animal came from here: it may have brought them
    moved_to,       ///< an animal went there: it may have taken them along
    handled_after,  ///< hands or clothes, in the order of handling
    shared_bag,     ///< the same bag or tub
    shared_item,    ///< a tool, hide or water bowl
    same_room,      ///< on foot within a room
    adjoining_room,  ///< on foot through a door or wall
};

using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(StepKind) {
    using enum StepKind;
    return base::vocabulary("contact", sighted, "sighted", outside, "outside", moved_from, "moved-from",
                            moved_to, "moved-to", handled_after, "handled-after", shared_bag, "shared-bag",
                            shared_item, "shared-item", same_room, "same-room", adjoining_room,
                            "adjoining-room");
}

/// One link of a path. Mites went, if at all, from `from` to `to`, whichever way the path is read.
struct Step {
    StepKind kind = StepKind::sighted;
    records::EnclosureId from;  ///< empty for a sighting
    records::EnclosureId to;
    records::RoomId from_room;  ///< empty for a sighting
    records::RoomId to_room;
    records::AnimalId
        animal;         ///< of the enclosure the step leads to, or the one moved; empty without an animal
    units::Day day;     ///< of the contact; for walking the last day of it
    double chance = 1;  ///< that the link carried a mite, had the giving enclosure been infested
    statement::Statement what;  ///< paths.def
};

struct Exposed {
    records::EnclosureId enclosure;
    double chance = 0;       ///< product of the links of the best path; 0 without one
    std::vector<Step> path;  ///< from a sighted enclosure outward; empty without one
    bool sighted = false;
    statement::Statement what;  ///< the path, or that no contact is on record
};

/// An animal that came from outside into a sighted enclosure, or into one that may have passed mites on to
/// it.
struct Arrival {
    records::AnimalId animal;
    records::EnclosureId enclosure;
    units::Day day;
    double chance = 0;  ///< of the links from that enclosure to the sighting; 1 where it is the sighted one
    statement::Statement what;
};

struct Tracing {
    units::Day from;                ///< first day looked at
    units::Day to;                  ///< last day looked at
    std::vector<Exposed> exposed;   ///< every enclosure, most exposed first, then by name
    std::vector<Exposed> sources;   ///< those that may have passed mites to a sighted one, likeliest first
    std::vector<Arrival> arrivals;  ///< likeliest first, then the latest
};

/// Who may have been reached by the mites seen in `sighted`, and who may have brought them. Looks at the
/// contacts of the days before `day` (parameter look_back) to the end of `day`; give today to count what
/// happened since the sighting. README.md states the model.
[[nodiscard]] base::Result<Tracing> trace(std::span<const records::Entry> journal,
                                          const evidence::Tables& tables,
                                          std::span<const records::EnclosureId> sighted, units::Day day);
/// The same on the day of `collection`, which is the journal's.
[[nodiscard]] base::Result<Tracing> trace(std::span<const records::Entry> journal,
                                          const records::Collection& collection,
                                          const evidence::Tables& tables,
                                          std::span<const records::EnclosureId> sighted);

/// Who may have been reached by what contact with the outside in the days before the collection's brought,
/// with nothing seen. Nothing is traced back. Error not_found without such a contact.
[[nodiscard]] base::Result<Tracing> trace_outside(std::span<const records::Entry> journal,
                                                  const records::Collection& collection,
                                                  const evidence::Tables& tables);

}  // namespace mitefall::exposure
