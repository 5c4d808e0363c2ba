#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "cli/commands.h"
#include "cli/tonight.h"
#include "formats/json/collection.h"
#include "formats/json/facts.h"
#include "formats/json/json.h"
#include "formats/text/collection.h"
#include "formats/text/layout.h"
#include "service/demo.h"
#include "web/server.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

/// The last words of the demo: what was shown, where the browser opens, what to type next.
std::string what_next(const Context& context) {
    const std::string file = context.file() == context.usual_file() ? "" : " --file " + context.file();
    const auto line = [](const std::string& text) { return formats::wrap(text, "", "  "); };
    return "\n" + line(fmt::format("Shown: the whole job on a made-up collection, {}", context.file())) +
           line(fmt::format("Browser: {} serve{}, then http://127.0.0.1:{}", context.program(), file,
                            web::ServerOptions{}.port)) +
           line(fmt::format("Next: {} plan --adopt recommended{}", context.program(), file));
}

/// Fills the file unless it holds something already: a demo that was cut off is completed.
Result<void> make_demo(Context& context) {
    const bool is_new = !std::filesystem::exists(context.file());
    auto keeper = is_new ? service::Keeper::create(context.file(), context.knowledge()) : context.open();
    if (!keeper) return fail(keeper.error());
    const auto journal = keeper->journal();
    if (!journal) return fail(journal.error());
    if (!journal->empty()) return {};
    const auto ids = keeper->record_all(service::demo_facts(context.now().today), context.now());
    if (!ids) return fail(ids.error());
    context.say(fmt::format("A made-up collection is in {}.\n", context.file()));
    return {};
}

void add_new(CLI::App& app, Context& context) {
    CLI::App* const command = app.add_subcommand("new", "Make an empty collection file");
    context.on_chosen(*command, [&context]() -> Result<void> {
        const auto keeper = service::Keeper::create(context.file(), context.knowledge());
        if (!keeper) return fail(keeper.error());
        context.answer("new", fmt::format("{} is ready. Begin with \"record room\".\n", context.file()), [&] {
            return formats::Json{{"file", context.file()}};
        });
        return {};
    });
}

void add_demo(CLI::App& app, Context& context) {
    CLI::App* const command =
        app.add_subcommand("demo", "Make the demo collection if it is not there, and do the whole job on it");
    context.on_chosen(*command, [&context]() -> Result<void> {
        if (const auto made = make_demo(context); !made) return made;
        if (const auto told = answer_tonight(context, "demo", {}); !told) return told;
        context.say(what_next(context));
        return {};
    });
}

void add_show(CLI::App& app, Context& context) {
    CLI::App* const command = app.add_subcommand("show", "The collection as it stands");
    context.on_chosen(*command, [&context]() -> Result<void> {
        const auto keeper = context.open();
        if (!keeper) return fail(keeper.error());
        const auto collection = keeper->collection(context.now().today);
        if (!collection) return fail(collection.error());
        context.answer("show", formats::collection_text(*collection, context.display()),
                       [&] { return formats::collection_json(*collection, context.knowledge().tables); });
        return {};
    });
}

void add_journal(CLI::App& app, Context& context) {
    CLI::App* const command = app.add_subcommand("journal", "Every entry ever made, oldest first");
    context.on_chosen(*command, [&context]() -> Result<void> {
        const auto keeper = context.open();
        if (!keeper) return fail(keeper.error());
        const auto journal = keeper->journal();
        if (!journal) return fail(journal.error());
        formats::Table table({"ENTRY", "DAY", "KIND", "CORRECTS", "WHAT"});
        const formats::Json listing = formats::journal_json(*journal);
        for (const formats::Json& row : listing["entries"]) {
            table.add({row["id"].dump(), row["day"].get<std::string>(), row["kind"].get<std::string>(),
                       row["corrects"].is_null() ? "" : row["corrects"].dump(), row["fact"].dump()});
        }
        context.answer("journal", table.text(), [&] { return listing; });
        return {};
    });
}

/// So many entries are one act, like a tick with all it writes; more are asked about (assumption, decision
/// 33).
constexpr std::size_t many_entries = 10;

/// How many entries `undo` would take back. Nothing is kept: the work fails on purpose.
Result<std::size_t> count_undone(service::Keeper& keeper, const service::Now& now) {
    std::optional<base::Error> fault;
    std::size_t count = 0;
    static_cast<void>(keeper.alone([&]() -> Result<void*> {
        const auto undone = keeper.undo(now);
        if (undone)
            count = undone->size();
        else
            fault = undone.error();
        return fail({});
    }));
    return fault ? Result<std::size_t>(fail(*fault)) : count;
}

base::Error undoes_many(std::size_t count) {
    return {base::ErrorKind::conflict,
            fmt::format("this takes back {} entries at once", count),
            {},
            {},
            fmt::format("undo --count {} if all of them are meant; else withdraw the one you mean", count),
            {}};
}

void add_undo(CLI::App& app, Context& context) {
    CLI::App* const command = app.add_subcommand("undo", "Take back what was recorded last");
    const auto expected = std::make_shared<std::size_t>(1);
    command->add_option("--count", *expected, "How many entries that is, if they are many");
    context.on_chosen(*command, [&context, expected]() -> Result<void> {
        auto keeper = context.open();
        if (!keeper) return fail(keeper.error());
        const auto last = keeper->last_entry();
        if (!last) return fail(last.error());
        const auto count = count_undone(*keeper, context.now());
        if (!count) return fail(count.error());
        if (*count > many_entries && *count != *expected &&
            context.ask(fmt::format("Take back {} entries?", *count)) != Context::Said::yes)
            return fail(undoes_many(*count));
        const auto undone = keeper->undo(context.now(), *last);
        if (!undone) return fail(undone.error());
        std::vector<records::FactId> ids;
        std::string text = "Taken back:";
        for (const records::Entry& entry : *undone) {
            ids.push_back(entry.id);
            text += fmt::format(" entry {}", entry.id);
        }
        context.answer("undo", text + "\n", [&] { return formats::Json{{"ids", ids}}; });
        return {};
    });
}

}  // namespace

void add_file_commands(CLI::App& app, Context& context) {
    add_new(app, context);
    add_demo(app, context);
    add_show(app, context);
    add_journal(app, context);
    add_undo(app, context);
}

}  // namespace mitefall::cli
