#pragma once

#include <memory>

#include "cli/fact_options.h"
#include "cli/recording.h"

// Each adds the options of one "record KIND" and returns how to make the fact from them: one file for each
// theme of facts (records/facts).
namespace mitefall::cli {

// record_places.cpp
[[nodiscard]] FactMaker room_options(CLI::App& command);
[[nodiscard]] FactMaker enclosure_options(CLI::App& command);
[[nodiscard]] FactMaker stand_options(CLI::App& command);

// record_animals.cpp
[[nodiscard]] FactMaker arrival_options(CLI::App& command, const std::shared_ptr<Recording>& recording);
[[nodiscard]] FactMaker move_options(CLI::App& command);
[[nodiscard]] FactMaker departure_options(CLI::App& command);
[[nodiscard]] FactMaker death_answer_options(CLI::App& command);
[[nodiscard]] FactMaker quarantine_end_options(CLI::App& command);
[[nodiscard]] FactMaker bystander_options(CLI::App& command);
[[nodiscard]] FactMaker bystander_moved_options(CLI::App& command);

// record_contacts.cpp
[[nodiscard]] FactMaker handling_options(CLI::App& command);
[[nodiscard]] FactMaker shared_item_options(CLI::App& command);
[[nodiscard]] FactMaker outside_options(CLI::App& command);

// record_bottles.cpp
[[nodiscard]] FactMaker stock_options(CLI::App& command);
[[nodiscard]] FactMaker stock_gone_options(CLI::App& command);

// record_care.cpp
[[nodiscard]] FactMaker meal_options(CLI::App& command);
[[nodiscard]] FactMaker eggs_options(CLI::App& command);

// record_observations.cpp
[[nodiscard]] FactMaker weight_options(CLI::App& command);
[[nodiscard]] FactMaker shed_options(CLI::App& command);
[[nodiscard]] FactMaker condition_options(CLI::App& command);
[[nodiscard]] FactMaker asked_options(CLI::App& command);
[[nodiscard]] FactMaker signs_options(CLI::App& command);
[[nodiscard]] FactMaker sighting_options(CLI::App& command);
[[nodiscard]] FactMaker check_options(CLI::App& command);
[[nodiscard]] FactMaker trap_routine_options(CLI::App& command);

// record_things.cpp
[[nodiscard]] FactMaker thing_options(CLI::App& command);
[[nodiscard]] FactMaker thing_treatment_options(CLI::App& command);
[[nodiscard]] FactMaker thing_gone_options(CLI::App& command);

// record_treatments.cpp
[[nodiscard]] FactMaker treatment_options(CLI::App& command);
[[nodiscard]] FactMaker room_treatment_options(CLI::App& command);
[[nodiscard]] FactMaker substrate_options(CLI::App& command);
[[nodiscard]] FactMaker water_options(CLI::App& command);
[[nodiscard]] FactMaker wetting_options(CLI::App& command);
[[nodiscard]] FactMaker direction_options(CLI::App& command);
[[nodiscard]] FactMaker veterinarian_options(CLI::App& command);
[[nodiscard]] FactMaker acknowledgement_options(CLI::App& command);

}  // namespace mitefall::cli
