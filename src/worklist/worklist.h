#pragma once

#include <set>

#include "worklist/late.h"
#include "worklist/task.h"

namespace mitefall::worklist {

/// Somebody the day's work passes over, and why.
struct PassedOver {
    records::EnclosureId enclosure;
    records::AnimalId animal;
    records::Method method = records::Method::spray_animal;
    safety::Reason why;
};

/// A shed that by the usual time should have come. The answer is a fact of its own (ShedSeen), not a tick.
struct ShedQuestion {
    records::AnimalId animal;
    records::EnclosureId enclosure;
    units::Day since;  ///< cloudy since
};

/// What to heed in these days that nobody ticks: a meal to hold, what is gentle before eggs.
struct Note {
    statement::Statement what;  ///< work.def
    std::vector<records::AnimalId> animals;
};

struct Worklist {
    units::Day day;
    std::vector<Task> tasks;  ///< in working order
    std::vector<PassedOver> passed_over;
    std::vector<safety::Caution> cautions;  ///< those that hold for the whole day, each once
    std::optional<units::Day> next_day;     ///< the next day with anything to do
    Late late = {};                         ///< of a list of today; filled by whoever has the days before
    records::FactId entry = 0;              ///< last entry of the journal it is made from; 0: none, a preview
    std::vector<ShedQuestion> questions{};  ///< to be answered today, by animal
    std::vector<Note> notes{};              ///< of care
};

/// Where the mites were seen and who is in quarantine, for the order of work.
struct DangerMap {
    std::set<records::EnclosureId> sighted;
    std::set<records::EnclosureId> exposed;
    std::set<records::EnclosureId> quarantined;
    [[nodiscard]] Danger of(const records::EnclosureId& enclosure) const;
    [[nodiscard]] Danger of_room(const records::Collection& collection, const records::RoomId& room) const;

    /// Work goes from 0 upwards: healthy, exposed, in quarantine, with mites, with mites in quarantine.
    [[nodiscard]] int turn_of(const records::EnclosureId& enclosure) const;
    [[nodiscard]] int turn_of_room(const records::Collection& collection, const records::RoomId& room) const;
    static constexpr int first_shut_off = 2;  ///< the turn of quarantine; clothes are changed after it
};

/// The task, and as what it counts where its round was put to another day.
[[nodiscard]] std::vector<std::string> keys_under(const std::string& task,
                                                  const std::vector<records::MovedRound>& moved);

/// The adopted course as dates and places, with what the journal says is done or skipped.
[[nodiscard]] plan::Assignment assignment_on_record(const records::Collection& collection);

/// Everything to do on the setting's day: treatments of a round due, water dishes out and back, paper to keep
/// damp, drinks where the dish is out, checks, also those missed on their day until the next day of checks.
/// Dishes that are out too long come before everything else. Then healthy rooms before exposed ones, then
/// quarantine, then infested; within a room clean enclosures first; gloves and hands between risk groups,
/// above the least risk between enclosures (safety rules, working order). Without an adopted plan: water and
/// drinks only.
[[nodiscard]] Worklist make_worklist(const plan::Setting& setting);

/// The facts that ticking a task puts on record, beside TaskDone itself. `answer`: of a check, and of nothing
/// else; without one a check puts nothing on record.
[[nodiscard]] std::vector<records::Fact> facts_of(const Task& task,
                                                  const std::optional<CheckAnswer>& answer = {});

}  // namespace mitefall::worklist
