#pragma once

#include "formats/emptied.h"
#include "service/keeper.h"
#include "statement/statement.h"

// An enclosure that nobody lives in: what is left of the mites in it, until it is lived in again.
namespace mitefall::service {

namespace emptied {

#define STATEMENTS "service/emptied.def"
#include "statement/kinds.def"

}  // namespace emptied

struct EmptiedOptions {
    std::string enclosure;
    double target = 0.99;  ///< chance wanted that nothing is alive in it
    double horizon_days = 120;
    std::size_t draws = 64;  ///< five curves of it take as long as one of the usual draws
    std::uint64_t seed = 1;
    std::function<bool(double)> progress;
};

/// The chance, week by week, that no mite of any stage is alive in the enclosure, given all that is on record
/// and what is left of the adopted course: left where it stands, and where that is sooner set apart, warm,
/// dry or both. Where somebody lives in it, as if everybody were moved out today. Errors: not_found for no
/// such enclosure, or where there is nothing on record to reckon from; conflict: cancelled.
[[nodiscard]] base::Result<formats::EmptiedView> emptied_of(const Situation& situation,
                                                            const EmptiedOptions& options);

}  // namespace mitefall::service
