#include "cli/record_options.h"

namespace mitefall::cli {

FactMaker thing_options(CLI::App& command) {
    using Thing = records::ThingKept;
    return FactOptions<Thing>(command)
        .needs("THING", &Thing::thing, "A new short name for it: tub-2-hide")
        .needs("WHAT", &Thing::what, records::list_texts<records::ThingKind>())
        .may("--enclosure", &Thing::enclosure, "Enclosure it is kept in")
        .may("--room", &Thing::room, "Room it is kept in")
        .may("--by", &Thing::by,
             "How you free it of mites, if it may be (default: as is usual for its kind): " +
                 records::list_texts<records::ThingMethod>());
}

FactMaker thing_treatment_options(CLI::App& command) {
    using records::ThingTreated;
    return FactOptions<ThingTreated>(command)
        .needs("THING", &ThingTreated::thing, "Which thing")
        .needs("METHOD", &ThingTreated::method, records::list_texts<records::ThingMethod>());
}

FactMaker thing_gone_options(CLI::App& command) {
    return FactOptions<records::ThingGone>(command).needs("THING", &records::ThingGone::thing, "Which thing");
}

}  // namespace mitefall::cli
