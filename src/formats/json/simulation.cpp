#include "formats/json/simulation.h"

#include "formats/json/parts.h"

namespace mitefall::formats {
namespace {

Json estimate_json(const simulator::Estimate& estimate) {
    return {{"value", number(estimate.value)}, {"standard_error", number(estimate.standard_error)}};
}

Json count_json(const simulator::CountBand& band) {
    return {{"time_days", number(band.time)},
            {"mean", number(band.mean)},
            {"p10", number(band.p10)},
            {"p50", number(band.p50)},
            {"p90", number(band.p90)}};
}

}  // namespace

Json simulation_json(const simulator::SimulationResult& result, std::uint32_t runs) {
    return {{"runs", runs},
            {"clear", estimate_json(result.clear)},
            {"clean", estimate_json(result.clean)},
            {"clear_and_clean", estimate_json(result.clear_and_clean)},
            {"clear_given_clean", estimate_json(result.clear_given_clean)},
            {"counts", list(result.counts, count_json)},
            {"cut_short", result.cut_short}};
}

}  // namespace mitefall::formats
