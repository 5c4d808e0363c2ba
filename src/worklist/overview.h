#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "exposure/tracing.h"
#include "worklist/worklist.h"

// The whole collection at a glance: where mites are or may be, and what is to be done there today.
namespace mitefall::worklist {

struct EnclosureAtAGlance {
    records::EnclosureId enclosure;
    std::string name;
    std::vector<std::string> animals;  ///< names
    Danger danger = Danger::healthy;
    std::optional<double> exposure;  ///< chance on its best path from where mites were seen; none without any
    statement::Statement exposed_by;  ///< that path (exposure/paths.def)
    int due = 0;                      ///< tasks of today not done yet
    int done = 0;                     ///< tasks of today that are done
    bool quarantine = false;          ///< of an animal in it
    std::optional<units::Day> water_out_since;
    std::optional<units::Day> last_checked;  ///< by a check or a sighting
};

struct RoomAtAGlance {
    records::RoomId room;
    std::string name;
    std::vector<EnclosureAtAGlance> enclosures;  ///< by name of the record
};

/// Tasks of one kind.
struct WorkAhead {
    TaskKind kind = TaskKind::treat;
    std::optional<records::Method> method;  ///< of treatments
    int tasks = 0;
};

struct Overview {
    units::Day day;
    std::vector<RoomAtAGlance> rooms;
    std::optional<records::DatedValue<records::PlanAdopted>> plan;
    int rounds_over = 0;  ///< of the plan: those of which nothing is left to do
    Late late = {};
    int due = 0, done = 0;  ///< of all tasks of today, those of no enclosure too
    std::optional<units::Day> next_day;
    std::optional<units::Day> last_sighting;
};

/// "3 rounds from 10 Mar 2026 to 16 Mar 2026, 18 enclosures, substrate changed each round, ..." (work.def)
[[nodiscard]] statement::Statement tell(const records::PlanAdopted& plan);

/// Tasks still to do, kind by kind, in the order in which each first comes.
[[nodiscard]] std::vector<WorkAhead> sum_up(const Worklist& list);

/// `exposed_from`: the least chance that counts as exposed.
[[nodiscard]] Overview look_over(std::span<const records::Entry> journal,
                                 const records::Collection& collection, const exposure::Tracing& tracing,
                                 const Worklist& list, double exposed_from);

}  // namespace mitefall::worklist
