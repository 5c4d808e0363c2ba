#pragma once

#include <set>
#include <string>
#include <vector>

#include "exposure/tracing.h"
#include "plan/course.h"
#include "plan/limits.h"
#include "plan/permit_book.h"
#include "records/task_key.h"
#include "safety/permit.h"
#include "scenario/history.h"

namespace mitefall::plan {

/// What a plan is made for. Keeps references; all must outlive it.
struct Setting {
    const safety::Case& with;                ///< the collection, its verdicts and the evidence
    const scenario::RecordedCase& known;     ///< history and sightings
    std::set<records::EnclosureId> exposed;  ///< enclosures with a contact worth treating for
    units::Day today;
    units::Strength strength;  ///< of the ivermectin spray
    Limits limits = {};
    /// Wood that a course may empty; a tub that is not known to the case is not on record yet.
    std::vector<records::EmptiedWood> wood = {};
};

/// It is in the collection for the sake of the wood alone: nothing of it is on record.
[[nodiscard]] bool is_tub_to_come(const records::EnclosureId& enclosure, const Setting& setting);

/// So many enclosures that a search saves time where that costs little (decisions 66 and 67).
[[nodiscard]] bool is_large(const Setting& setting);

/// Somebody a round would treat and the rules do not let it.
struct LeftOut {
    units::Day day;
    records::EnclosureId enclosure;
    records::AnimalId animal;  ///< empty: the enclosure or the room
    records::Method method = records::Method::spray_animal;
    safety::Reason why;
    records::RoomId room{};  ///< where its floor and racks were meant; else empty
};

/// A permitted treatment, and what of its round it is.
struct ScheduledTreatment {
    units::Day planned;  ///< the day the course names for its round
    records::TaskPart part = records::TaskPart::animal;
    safety::PermittedTreatment treatment;

    /// Under which the journal knows it: round day, part, name ("2026-11-25/animal/juno"). It stays the same
    /// when the verdict changes the method.
    [[nodiscard]] std::string key() const;
};

struct Round {
    units::Day planned;                          ///< the day the course names
    units::Day day;                              ///< the day it is done: today if it is late
    std::vector<ScheduledTreatment> treatments;  ///< by enclosure, in the order in which they are done
    bool own_date = false;  ///< of animals that had to wait beyond the round's day (a shed just past)
};

/// A course with its dates and places fixed.
struct Assignment {
    std::vector<units::Day> rounds;  ///< ascending
    std::vector<records::EnclosureId> enclosures;
    std::vector<records::RoomId> rooms;
    records::CourseChoices choices;
    std::set<std::string> settled;  ///< keys already done or skipped
};

/// What a course asks of animals and keeper.
struct Burden {
    int most_on_one_animal = 0;  ///< acaricide applications on the animal that gets most
    int on_animal = 0;           ///< acaricide applications on animals, all together
    int damp_days = 0;           ///< days on wet paper, all animals together
    int handlings = 0;           ///< animals taken out, for whatever treatment
    int soaks = 0;               ///< of them, those soaked: half an hour each
    int days_without_water = 0;  ///< enclosure-days
    int tasks = 0;               ///< things to do, keeping paper damp and drinks included
    units::Volume spray;         ///< mixed, without spare

    /// Least burden on animals, then least work, then least spray.
    friend bool operator<(const Burden& a, const Burden& b);
};

/// Days after a bedding spray on which the paper is wetted again (safety/wet_book.h), each of them permitted.
struct DampSpell {
    records::EnclosureId enclosure;
    units::Day first;
    units::Day last;  ///< included
};

/// A course as it can really be done: every treatment in it is permitted.
struct Schedule {
    Assignment assignment;
    std::vector<Round> rounds;  ///< those with a day from today on, by day
    std::vector<LeftOut> left_out;
    std::vector<DampSpell> damp;  ///< by enclosure, then by day; none unless paper is kept damp
    Burden burden;
    Doings does;
};

/// A kind of treatment a course was to have, of which nothing is permitted, and why: one reason for each
/// remedy, those of most animals and places first.
struct Refused {
    records::Method method = records::Method::spray_animal;
    std::vector<safety::Reason> reasons;
};

/// In the order in which the schedule asked; the reasons that hold for most places first, then the gravest.
[[nodiscard]] std::vector<Refused> refused_in(const Schedule& schedule);

/// The first round is on the first free day from today on. A day that is not free moves to the next that is,
/// never closer to the round before than `shortest_interval`.
[[nodiscard]] Assignment assign(const Course& course, const Setting& setting);

/// Fits an assignment to the verdicts and to what paper and water dish allow: each animal gets the spray, or
/// the soak if the course says so, where permitted. If it must wait and it is known until when, it gets a
/// date of its own `shortest_interval` before the next round or sooner, after the last round within
/// `own_date_window` days; so does its bedding. Else it gets a soak, else a wipe, else nothing: never the
/// spray where the soak was meant. One that waits is so treated as soon as it may be, in this round or in a
/// later one, and with what it may be given until then. A round
/// whose day has passed is done today, unless a later one is due as well. What is settled is left out.
[[nodiscard]] Schedule fit(const Assignment& assignment, const Setting& setting);
/// The same, with answers remembered in `permits` (made for the case of the setting).
[[nodiscard]] Schedule fit(const Assignment& assignment, const Setting& setting, PermitBook& permits);

/// The enclosures a course treats, in working order within rooms: clean ones before sighted ones.
[[nodiscard]] std::vector<records::EnclosureId> enclosures_of(Scope scope, const Setting& setting);

/// The scopes worth telling apart in this setting, narrowest first; only `chosen` if the limits name
/// enclosures, only `everything` if no mite was seen.
[[nodiscard]] std::vector<Scope> scopes_of(const Setting& setting);

/// The rooms of which a course treats every enclosure.
[[nodiscard]] std::vector<records::RoomId> rooms_of(Scope scope, const Setting& setting);

/// Those of them whose floor and racks it may treat: no animal lives there.
[[nodiscard]] std::vector<records::RoomId> empty_rooms_of(Scope scope, const Setting& setting);

/// The scenario of the setting as it stands now: what of its past still acts.
[[nodiscard]] scenario::Scenario present_of(const Setting& setting);

/// What the schedule does to mites, appended to `history` (the recorded scenario, or what of it still acts).
/// `not_before`: days; what the schedule asks for sooner is done then.
[[nodiscard]] scenario::Scenario apply(const Schedule& schedule, const Setting& setting,
                                       scenario::Scenario history, double not_before = 0);

}  // namespace mitefall::plan
