#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "plan/schedule.h"
#include "records/task_key.h"
#include "safety/water.h"
#include "worklist/work.h"
#include "worklist/worklist.h"

namespace mitefall::worklist {

/// One day under the course on record: what every rule (rules/) asks. Nothing in it changes, and no rule asks
/// what another has written, so that their order means nothing. Keeps a reference to the setting.
class Workday {
  public:
    explicit Workday(const plan::Setting& setting);
    Workday(const Workday&) = delete;  // what is due points into its schedule
    Workday& operator=(const Workday&) = delete;

    [[nodiscard]] units::Day today() const { return setting_.today; }
    [[nodiscard]] const plan::Setting& setting() const { return setting_; }
    [[nodiscard]] const records::Collection& collection() const { return setting_.with.collection; }
    [[nodiscard]] const evidence::Tables& tables() const { return setting_.with.tables; }
    [[nodiscard]] const plan::Assignment& assignment() const { return assignment_; }
    [[nodiscard]] const plan::Schedule& schedule() const { return schedule_; }
    [[nodiscard]] const DangerMap& danger() const { return danger_; }
    /// DangerMap::turn_of_room; 0 for a room that is not there.
    [[nodiscard]] int turn_of_room(const records::RoomId& room) const;
    [[nodiscard]] const safety::WetLimits& limits() const { return limits_; }
    [[nodiscard]] bool has_course() const { return !assignment_.rounds.empty(); }

    /// The treatments of the day's rounds.
    struct Due {
        const plan::Round* round;
        const plan::ScheduledTreatment* scheduled;
    };
    [[nodiscard]] const std::vector<Due>& due() const { return due_; }

    /// "2026-11-25/water-out/tub-2".
    [[nodiscard]] std::string key(records::TaskPart part, std::string_view name) const;
    [[nodiscard]] TaskState state_of(const std::string& key) const;
    /// One of this day, with what is on record of it. `enclosure`: empty for a room or the bench.
    [[nodiscard]] Task task(std::string key, TaskKind kind, const records::EnclosureId& enclosure,
                            statement::Statement what) const;
    void put_in_room(Task& task, const records::RoomId& room) const;

    [[nodiscard]] std::string name_of(const records::EnclosureId& enclosure) const;
    [[nodiscard]] statement::Names names_of(const std::vector<records::AnimalId>& animals) const;
    /// Who moves out of wood today lives where it goes.
    [[nodiscard]] safety::Inside inside(const records::EnclosureId& enclosure) const;
    [[nodiscard]] safety::Dish dish_of(const records::Enclosure& enclosure) const;

    // The dish and the paper, each asked by several rules.

    /// A spray of its paper or of an animal in it was given today.
    [[nodiscard]] bool got_wet(const records::Enclosure& enclosure,
                               std::optional<records::Method> by = std::nullopt) const;
    /// The dish comes out, or came out and is ticked. One that has only just been put back stays in for the
    /// day: nobody goes from one spell without water straight into the next.
    [[nodiscard]] bool takes_dish_out(const records::Enclosure& enclosure) const;
    /// The treatment is a spray that is held back: its dish was left in, and an animal drinks from it.
    [[nodiscard]] bool is_held(const plan::ScheduledTreatment& scheduled) const;
    /// Paper that is wetted again today; the answer of the safety check, asked anew each day. None: it is
    /// not.
    [[nodiscard]] const safety::Permit* wetting_again(const records::EnclosureId& enclosure) const;
    /// Sprayed or wetted today, done or to be done.
    [[nodiscard]] bool stays_wet(const records::Enclosure& enclosure) const;
    /// On the last day it may be out whatever the paper is like, before that as soon as nothing is wetted.
    [[nodiscard]] bool puts_dish_back(const records::Enclosure& enclosure) const;
    /// Where the dish is out, or comes out, for the day.
    [[nodiscard]] bool is_without_dish(const records::Enclosure& enclosure) const;

    [[nodiscard]] units::Day end_of_watch() const;

    /// Things on record are kept there.
    [[nodiscard]] bool has_things(const records::EnclosureId& enclosure) const {
        return with_things_.contains(enclosure);
    }

  private:
    [[nodiscard]] bool is_kept_damp(const records::Enclosure& enclosure) const;
    [[nodiscard]] units::Day last_treatment() const;
    void note_dangers();
    void note_due();
    void ask_for_wettings();

    const plan::Setting& setting_;
    plan::Assignment assignment_;
    plan::Schedule schedule_;
    DangerMap danger_;
    std::map<records::RoomId, int> turns_;
    safety::WetLimits limits_;
    std::vector<Due> due_;                         ///< points into the schedule
    std::set<records::EnclosureId> spray_is_due_;  ///< on the paper or an animal in it, whatever became of it
    std::set<records::EnclosureId> emptied_today_;  ///< wood, done or to be done
    std::set<records::EnclosureId> with_things_;
    std::set<records::EnclosureId> wet_today_;  ///< by one of those that is neither held back nor skipped
    std::map<records::EnclosureId, safety::Permit> wettings_;
};

/// A look a week; common practice.
inline constexpr units::Days check_interval{7};

/// How to look for mites in the enclosure: nobody takes a venomous snake in hand for it.
[[nodiscard]] records::CheckMethod check_method(const Workday& day, const records::EnclosureId& enclosure);
[[nodiscard]] statement::Statement look_in(const Workday& day, const records::EnclosureId& enclosure);

/// Strength of the spray a task uses, and what it is of.
void set_strength(Task& task, records::Method method, units::Strength strength);

}  // namespace mitefall::worklist
