#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/band.h"
#include "forecast/passage.h"
#include "records/facts/course.h"
#include "records/names.h"
#include "units/climate.h"
#include "units/day.h"

// Why a course has these days: how long each part of a mite's life takes there, what each round catches, and
// what passes under it.
namespace mitefall::formats {

/// One day on which something is done, as one enclosure meets it.
struct StripGate {
    units::Day day;
    bool own_date = false;                 ///< for animals that had to wait
    std::vector<records::Method> methods;  ///< done there, in order, each once; none: nothing is permitted
    forecast::Shares before{}, after{};    ///< of all that was alive there on day 0
    base::Band caught;                     ///< of the same: killed that day
    base::Band passed;                     ///< of the same: eggs alive when it is over
};

struct StripCheck {
    units::Day day;
    base::Band alive;  ///< of all that was alive there on day 0, with the young
};

struct StripEnclosure {
    records::EnclosureId enclosure;
    units::Temperature by_day, by_night;
    std::array<std::optional<mites::Duration>, mites::life_stage_total> lasts;
    std::vector<StripGate> gates;
    std::vector<StripCheck> checks;
};

struct StripView {
    units::Day day_zero;                     ///< today
    std::vector<units::Day> rounds;          ///< still to come: those that can be moved, and today's
    std::vector<StripEnclosure> enclosures;  ///< the warmest first
    base::Band clear;                        ///< chance of clear of the course on these days
    units::Day by;                           ///< by then
    std::size_t left_out = 0;                ///< treatments that are not permitted on these days
};

}  // namespace mitefall::formats
