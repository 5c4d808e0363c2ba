#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <memory>

#include "cli/commands.h"
#include "cli/parse.h"
#include "formats/text/layout.h"
#include "service/retelling.h"

// A collection told again without names (docs/cases.md).
namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

struct RetellOptions {
    std::string out, first_day;
};

base::Error retelling_not_written(base::ErrorKind kind, std::string what, const std::string& path) {
    return {kind, std::move(what), path, {}, "choose another name, in a folder you may write to", {}};
}

/// In a new file: what somebody has written into one is not lost.
Result<void> write_retelling(const std::string& path, const std::string& text) {
    if (std::filesystem::exists(path))
        return fail(
            retelling_not_written(base::ErrorKind::already_exists, "there is a file of that name", path));
    std::ofstream file(path, std::ios::binary);
    file << text;
    file.close();
    if (!file)
        return fail(retelling_not_written(base::ErrorKind::system, "the file could not be written", path));
    return {};
}

Result<std::optional<units::Day>> read_first_day(const std::string& text) {
    if (text.empty()) return std::nullopt;
    const auto day = for_option("--first-day", units::parse_day(text));
    if (!day) return fail(day.error());
    return *day;
}

/// For the keeper alone: it stands in no file.
std::string who_is_who(const std::vector<service::Renamed>& who) {
    formats::Table table({"IN THE FILE", "HERE"});
    for (const service::Renamed& one : who) table.add({one.is, one.was});
    return table.text();
}

formats::Json retelling_json(const std::string& path, const service::Retelling& told) {
    formats::Json who = formats::Json::array();
    for (const service::Renamed& one : told.who) who.push_back({{"in_the_file", one.is}, {"here", one.was}});
    return {{"file", path}, {"entries", told.journal.size()}, {"who", who}};
}

Result<void> answer_retell(Context& context, const RetellOptions& options) {
    const auto first_day = read_first_day(options.first_day);
    if (!first_day) return fail(first_day.error());
    const auto keeper = context.open();
    if (!keeper) return fail(keeper.error());
    const auto journal = keeper->journal();
    if (!journal) return fail(journal.error());
    const auto told = service::retell(*journal, context.now().today, context.knowledge().taxa, *first_day);
    const auto text = service::plain_case(told);
    if (!text) return fail(text.error());
    if (auto written = write_retelling(options.out, *text); !written) return written;
    const std::string shown =
        formats::wrap(
            fmt::format("{} holds all {} entries without names and notes. Weights, days and kinds of "
                        "animal are in it: read it before you give it away.",
                        options.out, told.journal.size()),
            "", "") +
        "\nWho is who, for you alone:\n\n" + who_is_who(told.who);
    context.answer("retell", shown, [&] { return retelling_json(options.out, told); });
    return {};
}

}  // namespace

void add_retell_command(CLI::App& app, Context& context) {
    CLI::App* const command = app.add_subcommand(
        "retell",
        "The journal in a plain text file without names, to show somebody an answer that looks wrong");
    const auto o = std::make_shared<RetellOptions>();
    command->add_option("--out", o->out, "File to write")->required();
    command->add_option("--first-day", o->first_day,
                        "Shift all days so that the earliest entry is of this day (default: days stay)");
    context.on_chosen(*command, [&context, o] { return answer_retell(context, *o); });
}

}  // namespace mitefall::cli
