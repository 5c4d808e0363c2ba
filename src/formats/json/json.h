#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "clearance/answers.h"
#include "exposure/tracing.h"
#include "forecast/forecast.h"
#include "plan/search.h"
#include "records/collection.h"
#include "safety/verdict.h"
#include "simulator/simulator.h"
#include "worklist/mix_sheet.h"
#include "worklist/overview.h"
#include "worklist/shopping.h"
#include "worklist/worklist.h"

// What other programs read. Every output is described by a schema in docs/schemas/, and a key once published
// keeps its meaning. Units stand in the keys; chances are plain numbers from 0 to 1; what is unknown or does
// not apply is null.
namespace mitefall::formats {

using Json = nlohmann::ordered_json;

/// {"mitefall": 1, "command": ..., "result": ...}
[[nodiscard]] Json envelope(std::string_view command, Json result);
/// {"mitefall": 1, "command": ..., "error": ...}
[[nodiscard]] Json error_envelope(std::string_view command, const base::Error& error);
[[nodiscard]] Json error_json(const base::Error& error);

/// Two spaces of indent and a line end. Never throws: bytes that are not UTF-8 become U+FFFD. What a terminal
/// would obey is written as \u.
[[nodiscard]] std::string write_json(const Json& json);

[[nodiscard]] Json collection_json(const records::Collection& collection);
[[nodiscard]] Json journal_json(const std::vector<records::Entry>& journal);
[[nodiscard]] Json exposure_json(const exposure::Tracing& tracing);
[[nodiscard]] Json verdicts_json(const std::vector<safety::Verdict>& verdicts);
[[nodiscard]] Json plan_json(const plan::PlanChoice& choice, const plan::Setting& setting,
                             const plan::Goal& goal);
[[nodiscard]] Json shopping_json(const worklist::Shopping& shopping, const worklist::Bench& bench);
[[nodiscard]] Json clearance_json(const clearance::CollectionAnswer& answer);
[[nodiscard]] Json next_check_json(const clearance::NextCheckAnswer& answer);
[[nodiscard]] Json release_json(const clearance::ReleaseAnswer& answer);
/// The chances, which the records alone do not tell, are null.
[[nodiscard]] Json overview_json(const worklist::Overview& overview);
/// What each animal may be given, without the reasons. `strength`: of the spray.
[[nodiscard]] Json rulings_json(const std::vector<safety::Verdict>& verdicts, units::Strength strength);
[[nodiscard]] Json worklist_json(const worklist::Worklist& list);
/// `cautions`: what whoever mixes it reads first.
[[nodiscard]] Json mixed_json(const worklist::MixSheet& sheet, const std::vector<safety::Caution>& cautions);
/// Every batch on record, oldest first.
[[nodiscard]] Json batches_json(const records::Collection& collection);

/// `clear_at_mode`: the chance with every parameter at its most likely value; NaN where it was not asked for.
[[nodiscard]] Json forecast_json(const forecast::Forecast& ensemble, double clear_at_mode);
[[nodiscard]] Json simulation_json(const simulator::SimulationResult& result, std::uint32_t runs);

/// What another program needs to compute the same answers: every parameter, the model in words, worked rates
/// and, with `with_draws`, every draw.
[[nodiscard]] Json parameters_json(const mites::Ensemble& ensemble, const evidence::Tables& tables,
                                   std::uint64_t seed, bool with_draws);
[[nodiscard]] Json evidence_json(const evidence::Tables& tables);

}  // namespace mitefall::formats
