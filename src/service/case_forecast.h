#pragma once

#include <functional>

#include "formats/casefile/case_file.h"
#include "simulator/simulator.h"

namespace mitefall::service {

struct CaseAnswer {
    forecast::Forecast ensemble;
    double clear_at_mode = 0;
};

/// The case by the backward sweep: over the ensemble, and at the most likely parameters. Error unsupported if
/// its checks would have to miss what they cannot miss.
[[nodiscard]] base::Result<CaseAnswer> sweep_case(const formats::CaseFile& given,
                                                  const std::function<bool(double)>& progress);

/// The case by the simulator at the most likely parameters, counts reported once a day.
[[nodiscard]] simulator::SimulationResult simulate_case(const formats::CaseFile& given, std::uint32_t runs,
                                                        std::uint64_t seed);

}  // namespace mitefall::service
