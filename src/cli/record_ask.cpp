#include "cli/record_ask.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "service/asked_first.h"
#include "service/clearance.h"
#include "words/words.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;
using records::AnimalId;

/// "How sure are we that no mite is left: 52 % now, 1.2 % after it.\n"
std::string tell_change(const std::string& what, const std::optional<base::Band>& before,
                        const std::optional<base::Band>& after) {
    if (!before && !after) return {};
    const auto show = [](const std::optional<base::Band>& band) {
        return band ? fmt::format("{} %", units::show_number(band->mean * 100, 2)) : std::string("not known");
    };
    return fmt::format("{}: {} now, {} after it.\n", what, show(before), show(after));
}

/// All that is asked, and what it does to the chances.
Result<std::string> tell_asks(const Context& context, const service::Keeper& keeper,
                              const std::vector<service::Ask>& asks,
                              const std::vector<service::DatedFact>& facts) {
    std::string text;
    bool moves_mites = false;
    for (const service::Ask& ask : asks) {
        text += words::say_all(ask.says) + "\n";
        if (!ask.tell.empty()) text += "Tell whoever takes it:\n";
        for (const service::Tell& line : ask.tell) {
            text += "  - " + words::say_all({line.what});
            text += line.tag ? fmt::format(" ({})\n", evidence::to_text(*line.tag)) : std::string("\n");
        }
        moves_mites |= ask.kind == service::AskKind::move || ask.kind == service::AskKind::departure;
    }
    if (!moves_mites) return text;
    service::PlanOptions options;
    options.progress = context.progress("Working out what it does");
    const auto done = keeper.ask(context.now(), service::consequence_of, facts, options);
    if (!done) return fail(done.error());
    return text + tell_change("Chance that no mite is left", done->clear_before, done->clear_after) +
           tell_change("Chance that the adopted plan clears them", done->course_before, done->course_after);
}

/// What somebody said to what is asked.
struct Said {
    std::vector<service::Ask> asks;  ///< all of them
    std::vector<std::string> keys;   ///< yes to these, at the terminal or by --knowing
    bool needs_reason = false;       ///< no yes will do
};

Result<Said> acknowledge(const Recording& recording, const service::Keeper& keeper,
                         const std::vector<service::DatedFact>& facts, const service::ReleaseChance& chance) {
    const Context& context = recording.context;
    auto asks = keeper.ask(context.now(), service::asked_first, facts, chance);
    if (!asks) return fail(asks.error());
    Said said;
    for (const service::Ask& ask : *asks) said.keys.push_back(ask.key);
    said.needs_reason =
        std::any_of(asks->begin(), asks->end(), [](const service::Ask& ask) { return ask.needs_reason; });
    said.asks = std::move(*asks);
    if (said.asks.empty() || said.needs_reason) return said;
    const auto text = tell_asks(context, keeper, said.asks, facts);
    if (!text) return fail(text.error());
    context.tell(*text);
    const bool knows = recording.knowing || !recording.knowing_because.empty();
    if (knows || context.ask("Record it all the same?") == Context::Said::yes) return said;
    return Said{};
}

/// The error as somebody at the command line can act on it.
base::Error at_the_command_line(base::Error error, const records::Fact& fact, bool needs_reason) {
    error.where.clear();
    error.value.clear();
    if (std::holds_alternative<records::QuarantineEnded>(fact))
        error.remedy = "wait, or give the reason with --because \"...\"";
    else if (needs_reason)
        error.remedy = "wait, or record the end of the quarantine with its reason (record quarantine-end)";
    else
        error.remedy =
            "add --knowing to record it all the same, or --knowing-because \"...\" to tell why as well";
    return error;
}

}  // namespace

Result<Recorded> record_asking(const Recording& recording, service::Keeper& keeper,
                               const service::DatedFact& dated) {
    const Context& context = recording.context;
    const std::vector<service::DatedFact> facts{dated};
    std::map<AnimalId, std::optional<double>> known;
    const service::ReleaseChance work_out = [&](const AnimalId& animal) -> std::optional<double> {
        const auto release =
            keeper.ask(context.now(), service::release_of, animal, service::ClearanceOptions());
        if (!release || release->release.points.empty()) return std::nullopt;
        return release->release.points.front().none.clear.mean;
    };
    const service::ReleaseChance chance = [&](const AnimalId& animal) {
        const auto [place, is_new] = known.emplace(animal, std::nullopt);
        if (is_new) place->second = work_out(animal);
        return place->second;
    };
    if (const auto ok = keeper.would_accept(facts, context.now()); !ok) return fail(ok.error());
    auto said = acknowledge(recording, keeper, facts, chance);
    if (!said) return fail(said.error());
    const auto added = service::record_knowingly(keeper, facts, said->keys, chance, context.now(),
                                                 recording.knowing_because);
    if (!added && added.error().where == "acknowledged")
        return fail(at_the_command_line(added.error(), dated.fact, said->needs_reason));
    if (!added) return fail(added.error());
    return Recorded{*added, std::move(said->asks)};
}

}  // namespace mitefall::cli
