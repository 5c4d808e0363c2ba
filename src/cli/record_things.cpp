#include <string>

#include "cli/parse.h"
#include "cli/record_options.h"

namespace mitefall::cli {
namespace {

using base::Result;
using records::Fact;
using records::ThingId;

struct ThingOptions {
    std::string thing, what, enclosure, room, by;
};

}  // namespace

FactMaker thing_options(CLI::App& command) {
    const auto o = make_options<ThingOptions>();
    command.add_option("THING", o->thing, "A new short name for it: tub-2-hide")->required();
    command.add_option("WHAT", o->what, records::list_texts<records::ThingKind>())->required();
    command.add_option("--enclosure", o->enclosure, "Enclosure it is kept in");
    command.add_option("--room", o->room, "Room it is kept in");
    command.add_option("--by", o->by,
                       "How you free it of mites, if it may be (default: as is usual for its kind): " +
                           records::list_texts<records::ThingMethod>());
    return [o]() -> Result<Fact> {
        const auto what = parse_choice<records::ThingKind>("WHAT", o->what);
        if (!what) return base::fail(what.error());
        records::ThingKept fact{ThingId(o->thing), *what, records::EnclosureId(o->enclosure),
                                records::RoomId(o->room)};
        if (o->by.empty()) return fact;
        const auto by = parse_choice<records::ThingMethod>("--by", o->by);
        if (!by) return base::fail(by.error());
        fact.by = *by;
        return fact;
    };
}

FactMaker thing_treatment_options(CLI::App& command) {
    const auto o = make_options<ThingOptions>();
    command.add_option("THING", o->thing, "Which thing")->required();
    command.add_option("METHOD", o->by, records::list_texts<records::ThingMethod>())->required();
    return [o]() -> Result<Fact> {
        const auto by = parse_choice<records::ThingMethod>("METHOD", o->by);
        if (!by) return base::fail(by.error());
        return records::ThingTreated{ThingId(o->thing), *by};
    };
}

FactMaker thing_gone_options(CLI::App& command) {
    const auto o = make_options<ThingOptions>();
    command.add_option("THING", o->thing, "Which thing")->required();
    return [o]() -> Result<Fact> { return records::ThingGone{ThingId(o->thing)}; };
}

}  // namespace mitefall::cli
