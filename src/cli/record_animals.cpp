#include "cli/record_options.h"

#include <string>
#include <vector>

#include "cli/parse.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;
using records::AnimalId;
using records::EnclosureId;
using records::Fact;
using records::RoomId;

struct AnimalOptions {
    std::string id, name, taxon, origin, enclosure, reason, how;
    bool quarantine = false;
};

}  // namespace

FactMaker arrival_options(CLI::App& command, const std::shared_ptr<Recording>& recording) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("ID", o->id, "Short name, like juno")->required();
    command.add_option("--name", o->name, "What people call it");
    command.add_option("--kind", o->taxon, "Species: scientific, common or trade name");
    command.add_option("--origin", o->origin, "Where it comes from");
    command.add_option("--enclosure", o->enclosure, "Enclosure it goes into")->required();
    const CLI::Option* const said =
        command.add_flag("--quarantine,!--no-quarantine", o->quarantine,
                         "It is in quarantine, or is not; proposed for what comes from outside");
    return [o, recording, said]() -> Result<Fact> {
        recording->is_quarantine_said = said->count() > 0;
        return records::AnimalArrived{AnimalId(o->id), o->name.empty() ? o->id : o->name, o->taxon,
                                      o->origin,       EnclosureId(o->enclosure),         o->quarantine};
    };
}

FactMaker move_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("ANIMAL", o->id)->required();
    command.add_option("--to", o->enclosure, "Enclosure it goes into")->required();
    return [o]() -> Result<Fact> { return records::AnimalMoved{AnimalId(o->id), EnclosureId(o->enclosure)}; };
}

FactMaker departure_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("ANIMAL", o->id)->required();
    command.add_option("--how", o->how, "How: " + records::list_texts<records::LeftHow>());
    command.add_option("--because", o->reason, "Why it left, in your words");
    return [o]() -> Result<Fact> {
        records::AnimalLeft fact{AnimalId(o->id), o->reason};
        if (o->how.empty()) return fact;
        const auto how = parse_choice<records::LeftHow>("--how", o->how);
        if (!how) return fail(how.error());
        fact.how = *how;
        return fact;
    };
}

FactMaker death_answer_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("ANIMAL", o->id, "The animal that died")->required();
    command.add_option("--because", o->reason, "Why its company may be treated again")->required();
    return [o]() -> Result<Fact> { return records::DeathAnswered{AnimalId(o->id), o->reason}; };
}

FactMaker quarantine_end_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("ANIMAL", o->id)->required();
    command.add_option("--because", o->reason, "Why, if mites were seen near it, or before the usual time");
    return [o]() -> Result<Fact> { return records::QuarantineEnded{AnimalId(o->id), o->reason}; };
}

FactMaker bystander_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("NAME", o->name)->required();
    command.add_option("--kind", o->taxon, "Species or group: dog, cat, fish, frog ...")->required();
    command.add_option("--room", o->enclosure, "Room it lives in (default: the whole house)");
    return [o]() -> Result<Fact> { return records::BystanderNoted{o->name, o->taxon, RoomId(o->enclosure)}; };
}

FactMaker bystander_moved_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("NAME", o->name, "As it was noted")->required();
    command.add_option("WHERE", o->how, "out, or back")->required()->check(CLI::IsMember({"out", "back"}));
    command.add_option("--room", o->enclosure, "Its room, where several have the name");
    return [o]() -> Result<Fact> {
        return records::BystanderMoved{{o->name, {}, RoomId(o->enclosure)}, o->how == "out"};
    };
}

}  // namespace mitefall::cli
