#pragma once

#include "questions/draws.h"
#include "service/emptied.h"

namespace mitefall::questions {

[[nodiscard]] inline Question<service::EmptiedOptions> emptied() {
    using O = service::EmptiedOptions;
    return {"emptied",
            "When an emptied enclosure may be lived in again: the wait until what is left in it has starved",
            together<O>({text<O>({"enclosure", "ENCLOSURE"}, &O::enclosure, "The enclosure").required(),
                         number<O>({"horizon_days", "--horizon"}, &O::horizon_days, {7, 365},
                                   "Days from now that are told, week by week")
                             .in("days"),
                         number<O>({"target", "--target"}, &O::target, {0.01, 0.99999},
                                   "Chance wanted that nothing is alive in it, in percent")
                             .in_percent()},
                        draws_of<O>())};
}

}  // namespace mitefall::questions
