#pragma once

#include <cstdint>

#include "formats/json/json.h"
#include "simulator/simulator.h"

namespace mitefall::formats {

[[nodiscard]] Json simulation_json(const simulator::SimulationResult& result, std::uint32_t runs);

}  // namespace mitefall::formats
