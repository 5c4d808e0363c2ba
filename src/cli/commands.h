#pragma once

#include "cli/context.h"

// One function per file of commands; each adds its commands to the program.
namespace mitefall::cli {

void add_file_commands(CLI::App& app, Context& context);       ///< new, demo, show, journal, undo
void add_retell_command(CLI::App& app, Context& context);      ///< retell
void add_record_commands(CLI::App& app, Context& context);     ///< record KIND
void add_withdraw_command(CLI::App& app, Context& context);    ///< withdraw
void add_import_command(CLI::App& app, Context& context);      ///< import
void add_situation_commands(CLI::App& app, Context& context);  ///< tonight, origin, exposure, given ...
void add_mix_commands(CLI::App& app, Context& context);        ///< mix, cupboard
void add_cupboard_command(CLI::App& app, Context& context);
void add_batch_commands(CLI::App& app, Context& context);  ///< batch make, list, label, discard
void add_plan_commands(CLI::App& app,
                       Context& context);  ///< plan, shopping, today, late, catch-up, done ...
void add_timing_commands(CLI::App& app, Context& context);  ///< why-days, procedure
void add_clearance_commands(CLI::App& app,
                            Context& context);  ///< clear, next-check, release, keep-out, handover
void add_forecast_commands(CLI::App& app, Context& context);  ///< forecast, parameters, evidence
void add_serve_command(CLI::App& app, Context& context);      ///< serve

}  // namespace mitefall::cli
