#include "formats/json/sure.h"

#include <cmath>

#include "formats/json/parts.h"

namespace mitefall::formats {

Json sureness_json(const clearance::Sureness& sure) {
    return {{"clear", band_json(sure.clear)},
            {"risk", band_json(sure.risk)},
            {"effective_draws", number(sure.effective_draws)}};
}

Json day_json(units::Day origin, const std::optional<double>& time) {
    if (!time) return nullptr;
    return date(origin + units::Days(static_cast<int>(std::lround(*time))));
}

namespace {

Json reached_json(const clearance::Reached& reached, units::Day origin) {
    return {{"level", number(reached.level)},
            {"at_mean", day_json(origin, reached.at_mean)},
            {"at_cautious", day_json(origin, reached.at_cautious)}};
}

}  // namespace

Json reached_list(const std::vector<clearance::Reached>& levels, units::Day origin) {
    return list(levels, [&](const auto& reached) { return reached_json(reached, origin); });
}

}  // namespace mitefall::formats
