#pragma once

#include <optional>
#include <vector>

#include "base/band.h"
#include "records/names.h"
#include "statement/statement.h"
#include "units/day.h"

// When an emptied enclosure may be lived in again.
namespace mitefall::formats {

/// One way to leave it standing.
struct EmptiedWay {
    statement::Statement how;           ///< service/emptied.def
    std::vector<base::Band> clear;      ///< chance that nothing is alive in it, on each of the days
    std::optional<units::Day> from;     ///< the first of the days on which the mean reaches the aim
    std::optional<units::Day> careful;  ///< the first on which the low end of the range does
};

struct EmptiedView {
    records::EnclosureId enclosure;
    bool supposed = false;  ///< somebody lives in it: as if it were emptied today
    double target = 0;
    std::vector<units::Day> days;
    std::vector<EmptiedWay> ways;               ///< left where it stands first, then those that are sooner
    std::vector<statement::Statement> at_once;  ///< what need not wait (service/emptied.def)
};

}  // namespace mitefall::formats
