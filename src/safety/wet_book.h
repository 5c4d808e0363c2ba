#pragma once

#include <optional>
#include <vector>

#include "records/collection.h"
#include "safety/rules.h"
#include "safety/water.h"
#include "units/day.h"

// On which days one enclosure is wet with spray and its dish is out. What is on record of that follows the
// animals (safety/water.h): what one went through in another enclosure counts where it lives now. Plan,
// worklist and forecast all ask here.
namespace mitefall::safety {

/// Paper that may be wet with spray, on `since.day` and each day before `dry`.
struct WetPaper {
    records::Dated since;  ///< the spraying, or the wetting again
    units::Day dry;
};

/// Wet paper under one animal, on `from` and each day before `end`.
struct LainOn {
    units::Day from;
    units::Day end;
    records::Dated known;
};

/// Its paper was wetted again on that day, as far as it is on record.
[[nodiscard]] bool was_wetted_again(const records::Enclosure& enclosure, units::Day day);

/// What is on record of the enclosure: each spraying of its paper and each wetting again may leave it wet
/// until the dish must come back, at most. The dish that came back, or new paper, on a later day ends it
/// after that day.
[[nodiscard]] std::vector<WetPaper> wet_paper(const records::Enclosure& enclosure, const WetLimits& limits);

/// The same, of the days on which the animal lived on it: from the later of the wetting and its coming, which
/// is also since when that is known, to its going.
[[nodiscard]] std::vector<LainOn> paper_under(const records::Collection& collection,
                                              const records::Animal& animal, const WetLimits& limits);

/// One spraying in an enclosure.
struct Wetting {
    units::Day day;
    bool of_paper = false;                  ///< else only of an animal in it
    std::optional<units::Day> damp_before;  ///< the paper may be wetted again before this day; empty: never
};

/// The paper sprayed on one day is wetted again on each day after it and before `dry`.
struct KeptDamp {
    units::Day sprayed;
    units::Day dry;
};

/// Nothing is wet while the dish is in, and no dish is out for longer than `dish_out`: paper is wetted again
/// at most until the dish comes back, and the dish comes back on the first day on which nothing is wetted,
/// for a whole day at least, the day before each round among them. Of the days a course may be wet or without
/// water, one is kept for each round to come.
class WetBook {
  public:
    /// `inside`: who lives there. `rounds`: of the course to be planned, ascending. `today`: the collection's
    /// day; what is on record counts from there back.
    WetBook(const records::Collection& collection, const records::Enclosure& enclosure, const Inside& inside,
            std::vector<units::Day> rounds, units::Day today, const WetLimits& limits);

    /// The same of what is on record, for a course of these rounds.
    [[nodiscard]] WetBook for_rounds(std::vector<units::Day> rounds) const;

    /// Why nothing may be wetted then; none if it may. Days before `today` may not.
    [[nodiscard]] std::optional<Against> refusal(const Wetting& wetting) const;

    /// Returns `refusal`, and adds what is not refused.
    std::optional<Against> add(const Wetting& wetting);

    /// Of what was added, by day.
    [[nodiscard]] const std::vector<KeptDamp>& kept_damp() const { return now_.kept; }
    [[nodiscard]] int days_without_dish() const;

    /// The first day from `today` on on which the paper sprayed before is not wetted again.
    [[nodiscard]] units::Day damp_until() const { return damp_until_; }

  private:
    struct Timetable {
        std::vector<units::Day> dry;   ///< days with the dish out, ascending
        std::vector<units::Day> damp;  ///< days with wet paper, ascending
        std::vector<KeptDamp> kept;
        units::Day out{};   ///< of the last spell without the dish
        units::Day back{};  ///< its end
    };
    [[nodiscard]] std::optional<Against> write(const Wetting& wetting, Timetable& into) const;
    [[nodiscard]] std::optional<Against> write_all(const std::vector<Wetting>& wettings,
                                                   Timetable& into) const;
    [[nodiscard]] std::vector<Wetting> with(const Wetting& wetting) const;
    [[nodiscard]] std::optional<Against> too_long(const Timetable& timetable) const;
    [[nodiscard]] units::Day end_of_damp(units::Day sprayed, const std::vector<units::Day>& rounds,
                                         const Timetable& so_far) const;
    void read_dish(const records::Collection& collection, const records::Enclosure& enclosure,
                   const Inside& inside);
    void read_paper(const records::Collection& collection, const records::Enclosure& enclosure,
                    const Inside& inside);

    std::vector<units::Day> rounds_;
    units::Day today_;
    WetLimits limits_;
    units::Day damp_until_;
    Timetable start_;  ///< what is on record and what goes on of it
    Timetable now_;
    std::vector<Wetting> wettings_;  ///< by day
};

/// The first day, from that of the collection on, on which the course in force does not wet this paper again.
[[nodiscard]] units::Day damp_until(const records::Collection& collection,
                                    const records::Enclosure& enclosure, const Inside& inside,
                                    const WetLimits& limits);

}  // namespace mitefall::safety
