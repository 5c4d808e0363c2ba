#include <fmt/format.h>

#include <memory>

#include "cli/commands.h"

namespace mitefall::cli {

void add_withdraw_command(CLI::App& app, Context& context) {
    struct Options {
        records::FactId entry = 0;
        std::string reason;
    };
    const auto o = std::make_shared<Options>();
    CLI::App* const command =
        app.add_subcommand("withdraw", "Take an entry of the journal out of force; it stays readable");
    command->add_option("ENTRY", o->entry, "Number of the entry (see \"journal\")")->required();
    command->add_option("--because", o->reason, "Why");
    context.on_chosen(*command, [o, &context]() -> base::Result<void> {
        auto keeper = context.open();
        if (!keeper) return base::fail(keeper.error());
        const auto id =
            keeper->correct(o->entry, records::Withdrawn{o->reason}, context.now().today, context.now());
        if (!id) return base::fail(id.error());
        context.answer("withdraw", fmt::format("Entry {} is withdrawn.\n", o->entry), [&] {
            return formats::Json{{"ids", {*id}}};
        });
        return {};
    });
}

}  // namespace mitefall::cli
