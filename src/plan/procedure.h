#pragma once

#include <optional>
#include <vector>

#include "plan/search.h"

// Treat, look, and treat again where a look finds something: the chance that the whole of it ends clear.
namespace mitefall::plan {

/// All given the clean looks on record.
struct Procedure {
    std::vector<units::Day> looks;  ///< made until one finds something
    std::vector<records::EnclosureId> looked_at;
    units::Day by;    ///< the day of the answer: as long after the last look as a course is scored for
    base::Band once;  ///< clear by then with the course alone
    std::optional<base::Band>
        found;  ///< if that does not end clear: a look finds something; none: it always does
    std::optional<base::Band> again;  ///< if a look finds something: clear by then, the course made once more
    base::Band whole;                 ///< clear by then, looks and second course counted
};

/// The course; then looks at everything it treats on these days (ascending, after its last treatment), until
/// one finds something; the course once more from that day on, with the same rounds apart, fitted to what the
/// first leaves permitted. A third course, and treating when nothing was found, are not counted. In every
/// draw `whole` is no less than `once`, but for M11 (docs/model.md). nullopt if cancelled.
[[nodiscard]] std::optional<Procedure> weigh_procedure(const Setting& setting,
                                                       const mites::Ensemble& ensemble,
                                                       const belief::Belief& belief, const Goal& goal,
                                                       const Schedule& course,
                                                       const std::vector<units::Day>& looks);

}  // namespace mitefall::plan
