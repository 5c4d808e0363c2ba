#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "mixing/course.h"
#include "mixing/tools.h"
#include "plan/schedule.h"

namespace mitefall::worklist {

/// What the keeper mixes with.
struct Bench {
    mixing::Stock stock;
    std::vector<mixing::Tool> tools;
    std::vector<mixing::Package> packages;  ///< sizes the stock is sold in; may be empty
};

struct BatchSheet {
    mixing::Batch batch;
    std::optional<mixing::Measurement> measurement;  ///< how to measure the stock with the tools at hand
    std::optional<mixing::MeasuredStrength> resulting;
    std::string cannot_measure;  ///< why there is no measurement, and what to do
};

struct Shopping {
    mixing::CourseTotals totals;
    std::vector<BatchSheet> batches;
};

/// Everything to mix and buy for a schedule: spray for animals and bedding on the days of its rounds, the
/// upkeep of damp paper in between and after, batches within their discard dates. Error not_found when the
/// schedule sprays nothing.
[[nodiscard]] base::Result<Shopping> shop_for(const plan::Schedule& schedule, const plan::Setting& setting,
                                              const Bench& bench);

}  // namespace mitefall::worklist
