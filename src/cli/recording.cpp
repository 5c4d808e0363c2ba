#include "cli/recording.h"

#include <fmt/format.h>

#include <variant>
#include <vector>

#include "cli/parse.h"
#include "cli/record_ask.h"
#include "cli/record_quarantine.h"
#include "web/asks.h"

namespace mitefall::cli {

using base::fail;
using base::Result;
using records::Fact;

Result<void> put_on_record(const Recording& recording, const Result<Fact>& fact) {
    if (!fact) return fail(fact.error());
    units::Day day = recording.context.now().today;
    if (!recording.day.empty()) {
        const auto parsed = for_option("--on", units::parse_day(recording.day));
        if (!parsed) return fail(parsed.error());
        day = *parsed;
    }
    auto keeper = recording.context.open();
    if (!keeper) return fail(keeper.error());
    service::DatedFact dated{day, *fact};
    if (recording.corrects != 0) dated.corrects = recording.corrects;
    std::string proposed = quarantine_proposed(recording, dated);
    if (!proposed.empty()) {
        const auto said = recording.context.ask(proposed + "Put it in quarantine?");
        std::get<records::AnimalArrived>(dated.fact).quarantine = said == Context::Said::yes;
        if (said != Context::Said::nobody) proposed.clear();
    }
    const auto added = record_asking(recording, *keeper, dated);
    if (!added) return fail(added.error());
    const std::vector<records::FactId>& ids = added->ids;
    if (!proposed.empty()) {
        recording.context.tell(proposed +
                               fmt::format("It is not in quarantine. To put it there:\n  {}\n"
                                           "Say --no-quarantine where it does not come from outside.\n",
                                           quarantine_command(recording.context, dated, ids.front())));
    }
    recording.context.answer("record",
                             fmt::format("On record as entry {} ({}). \"undo\" takes it back.\n", ids.front(),
                                         units::format_day(day)),
                             [&] {
                                 formats::Json json{{"ids", ids}};
                                 if (!added->asks.empty()) json["asks"] = web::asks_json(added->asks);
                                 return json;
                             });
    return {};
}

}  // namespace mitefall::cli
