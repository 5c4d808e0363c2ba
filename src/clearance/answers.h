#pragma once

#include <optional>
#include <vector>

#include "clearance/after.h"
#include "clearance/next_check.h"
#include "clearance/notice.h"
#include "clearance/release.h"
#include "records/given.h"
#include "records/names.h"
#include "units/day.h"

// The answers in the keeper's terms: names and days instead of places and times.
namespace mitefall::clearance {

/// A room (its floor, racks and walls), or enclosures of which the same is known.
struct SureOf {
    std::vector<records::EnclosureId> enclosures;
    records::RoomId room;  ///< empty for enclosures
    Sureness sure;
};

struct CollectionAnswer {
    units::Day origin;                        ///< day 0 of the times below
    std::optional<units::Day> last_sighting;  ///< none: no mite was seen lately
    units::Day today;
    bool course_goes_on = false;  ///< treatments of the adopted course still to come are counted in
    std::vector<records::EnclosureId> looked_at;  ///< by the rounds to come
    records::CheckMethod method = records::CheckMethod::look_over;
    int interval_days = 7;
    std::vector<SureOf> places;        ///< least sure first
    Outlook outlook, at_low, at_high;  ///< detection over its range, at its low end, at its high end
};

struct NextCheck {
    std::vector<records::EnclosureId> enclosures;  ///< any one of them
    units::Day day;
    int animals_in_hand = 0;
    units::TimeSpan work;
    CheckValue value;
};

/// How many enclosures to look over so that a light infestation in `with_mites` of them would show.
struct SpotCheck {
    int enclosures = 0;
    int with_mites = 0;
    double confidence = 0.95;
    std::optional<int> to_check;  ///< empty: looking over all of them would not do
};

struct NextCheckAnswer {
    std::optional<units::Day> last_sighting;  ///< none: no mite was seen lately
    units::Day today;
    std::vector<NextCheck> checks;  ///< the most telling first
    SpotCheck spot;
};

struct ReleaseAnswer {
    records::AnimalId animal;
    units::Day arrived, today;        ///< `arrived` is day 0 of the times below
    units::Day usual_from, usual_to;  ///< the usual quarantine ends between these
    int clean_checks = 0;             ///< on record since it came
    bool mites_elsewhere = false;     ///< seen in the collection since it came
    int interval_days = 7;
    Release release, at_low, at_high;
    std::vector<Told> others{};  ///< diseases this says nothing about
};

/// How mites are kept out, and how soon a new one would be noticed.
struct KeepOutAnswer {
    units::Day today;
    int within_days = 30;
    int enclosures = 0;        ///< with animals
    int enclosures_asked = 0;  ///< of them those the chances were worked out for, alike ones counted
    std::vector<Noticed> routines;
    std::vector<Told> habits;
    std::optional<int> trap_routine{};  ///< on record: days between two readings
};

/// For whoever takes an animal.
struct Handover {
    records::Given met;  ///< since it came
    units::Day arrived;
    int clean_checks = 0;
    std::optional<units::Day> last_check{}, last_mites{};  ///< where it lived
    std::optional<Sureness> sure{};  ///< that no mite is with it today; none: nothing to work it out from
    std::vector<statement::Statement> risk{};  ///< why it should not go now (service/asked.def); none: it may
    std::vector<Told> watch_for{};
};

}  // namespace mitefall::clearance
