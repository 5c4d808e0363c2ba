#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "cli/commands.h"
#include "web/server.h"

// The program in a browser, on this machine and, if asked for, on the telephones of the household.
namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

/// A file that is not there yet becomes an empty collection: the pages say how to begin.
Result<service::Keeper> open_or_create(const Context& context) {
    if (std::filesystem::exists(context.file())) return context.open();
    return service::Keeper::create(context.file(), context.knowledge());
}

Result<void> serve(Context& context, const web::ServerOptions& options) {
    auto keeper = open_or_create(context);
    if (!keeper) return fail(keeper.error());
    auto server =
        web::Server::start(std::move(*keeper), context.file(), context.knowledge(), context.clock(), options);
    if (!server) return fail(server.error());
    std::string text = fmt::format("Mitefall is at {}\n", (*server)->address());
    for (const std::string& link : (*server)->invitations())
        text += fmt::format("On a telephone of the home network, open {}\n", link);
    context.say(text + "Keep this window open; Ctrl-C ends it.\n");
    context.flush();
    (*server)->wait();
    return {};
}

}  // namespace

void add_serve_command(CLI::App& app, Context& context) {
    const auto o = std::make_shared<web::ServerOptions>();
    o->version = MITEFALL_VERSION;
    CLI::App* const command =
        app.add_subcommand("serve", "Everything in a browser, on this machine and on telephones at home");
    command->add_option("--port", o->port, "Port to listen on; 0: any that is free")->capture_default_str();
    command->add_flag("--share", o->share, "Let paired devices of the home network in");
    command->add_option("--share-address", o->share_addresses,
                        "Address of this machine to share on (default: those on private networks)");
    context.on_chosen(*command, [&context, o] { return serve(context, *o); });
}

}  // namespace mitefall::cli
