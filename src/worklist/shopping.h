#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "mixing/bench.h"
#include "mixing/course.h"
#include "mixing/dose.h"
#include "mixing/stock_form.h"
#include "mixing/tools.h"
#include "plan/schedule.h"
#include "worklist/supplies.h"

namespace mitefall::worklist {

/// What the keeper mixes with.
struct Bench {
    mixing::Stock stock;
    std::vector<mixing::Tool> tools;
    std::vector<mixing::Package> packages;     ///< sizes the stock is sold in; may be empty
    std::optional<units::Volume> bottle = {};  ///< most one batch may hold
    bool preserved = false;                    ///< the mix has a preservative
    mixing::StockForm stock_is = mixing::StockForm::not_told;
    records::StockId from = {};  ///< the bottle on record that the stock is; empty: of none
};

struct BatchSheet {
    mixing::Batch batch;
    std::optional<mixing::Measured> measured;  ///< how to measure the stock with the tools at hand
    std::string cannot_measure;                ///< why there is no measurement, and what to do
};

/// Spray of one animal over the course, without spare.
struct AnimalNeed {
    records::AnimalId animal;
    int times = 0;
    mixing::Spread<units::Volume> each;  ///< one misting, by body surface
};

/// Spray of one enclosure over the course, without spare.
struct EnclosureNeed {
    records::EnclosureId enclosure;
    int sprayings = 0;
    units::Volume each;    ///< one spraying of paper and walls, by floor area
    int damp_days = 0;     ///< days on which its paper is made damp again
    units::Volume upkeep;  ///< each such day
};

struct Shopping {
    mixing::CourseTotals totals;
    std::vector<BatchSheet> batches;
    std::vector<AnimalNeed> animals;        ///< by name
    std::vector<EnclosureNeed> enclosures;  ///< by name
    std::vector<Supply> supplies;           ///< all that is not the drug
};

/// Everything to mix and buy for a schedule: spray for animals and bedding on the days of its rounds, the
/// upkeep of damp paper in between and after, batches within their discard dates; and what is needed beside
/// the drug, which is all where nothing is sprayed. Error not_found when nothing is left to do.
[[nodiscard]] base::Result<Shopping> shop_for(const plan::Schedule& schedule, const plan::Setting& setting,
                                              const Bench& bench);

}  // namespace mitefall::worklist
