#include "cli/app.h"

#include <algorithm>
#include <sstream>

#include "cli/commands.h"

namespace mitefall::cli {
namespace {

constexpr int usage_error = 2;
constexpr int defect = 1;

const char* const description =
    "Mitefall: when mites turn up on snakes, who is exposed, what each animal can safely be given, how to "
    "mix it, what to do each day, how likely that is to clear every mite, and when it is over.";
const char* const footer =
    "Begin with \"mitefall demo\" to see the whole job on a made-up collection, or \"mitefall new\" for your "
    "own.\n"
    "Nothing here replaces a licensed veterinarian, the product label or local law.";

void add_commands(CLI::App& app, Context& context) {
    add_situation_commands(app, context);
    add_plan_commands(app, context);
    add_timing_commands(app, context);
    add_clearance_commands(app, context);
    add_mix_commands(app, context);
    add_batch_commands(app, context);
    add_record_commands(app, context);
    add_withdraw_command(app, context);
    add_import_command(app, context);
    add_file_commands(app, context);
    add_retell_command(app, context);
    add_forecast_commands(app, context);
    add_serve_command(app, context);
}

}  // namespace

int run(std::vector<std::string> arguments, Surroundings& surroundings) {
    const std::string version = "mitefall " MITEFALL_VERSION;
    // Asked by scripts, again and again: it does not wait for every option of every command.
    if (arguments == std::vector<std::string>{"--version"}) {
        surroundings.out << version << '\n';
        return 0;
    }
    CLI::App app(description, "mitefall");
    app.footer(footer);
    app.set_version_flag("--version", version);
    app.require_subcommand(1);
    app.fallthrough();
    app.set_help_all_flag("--help-all", "Help of every command");
    Context context(surroundings);
    context.add_shared_options(app);
    add_commands(app, context);
    std::reverse(arguments.begin(), arguments.end());
    try {
        app.parse(arguments);
    } catch (const CLI::ParseError& fault) {
        std::ostringstream out;
        std::ostringstream err;
        const int code = app.exit(fault, out, err);
        surroundings.out << formats::lay_out(out.str(), surroundings.terminal);
        surroundings.err << formats::lay_out(err.str(), surroundings.terminal);
        return code == 0 ? 0 : usage_error;
    } catch (const std::exception& fault) {
        surroundings.err << formats::lay_out(
            formats::wrap(std::string("this is a defect of the program, nothing was saved: ") + fault.what(),
                          "mitefall: ", "  "),
            surroundings.terminal);
        return defect;
    }
    return context.exit_code();
}

}  // namespace mitefall::cli
