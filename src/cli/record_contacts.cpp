#include "cli/record_options.h"

#include <string>
#include <vector>

#include "cli/parse.h"

namespace mitefall::cli {
namespace {

using base::Result;
using records::EnclosureId;
using records::Fact;

struct ContactOptions {
    std::vector<std::string> animals;
    bool shared_bag = false;
    std::string item, from, to;
};

struct OutsideOptions {
    std::string what, note;
    std::vector<std::string> rooms, enclosures;
};

}  // namespace

FactMaker handling_options(CLI::App& command) {
    const auto o = make_options<ContactOptions>();
    command.add_option("ANIMALS", o->animals, "In the order in which they were handled")->required();
    command.add_flag("--shared-bag", o->shared_bag, "They were put into the same bag or tub");
    return [o]() -> Result<Fact> {
        records::Handled fact;
        for (const std::string& id : o->animals) fact.animals.emplace_back(id);
        fact.shared_bag = o->shared_bag;
        return fact;
    };
}

FactMaker shared_item_options(CLI::App& command) {
    const auto o = make_options<ContactOptions>();
    command.add_option("ITEM", o->item, "Tool, hide or water bowl")->required();
    command.add_option("--from", o->from, "Enclosure it was used in")->required();
    command.add_option("--to", o->to, "Enclosure it was used in next")->required();
    return [o]() -> Result<Fact> {
        return records::ItemShared{o->item, EnclosureId(o->from), EnclosureId(o->to)};
    };
}

FactMaker outside_options(CLI::App& command) {
    const auto o = make_options<OutsideOptions>();
    command.add_option("WHAT", o->what, records::list_texts<records::OutsideKind>())->required();
    command.add_option("--room", o->rooms, "Rooms it may have reached (default: nobody knows, so any)");
    command.add_option("--enclosure", o->enclosures, "Enclosures it may have reached");
    command.add_option("--note", o->note);
    return [o]() -> Result<Fact> {
        const auto what = parse_choice<records::OutsideKind>("WHAT", o->what);
        if (!what) return base::fail(what.error());
        records::OutsideContact fact{*what, {}, {}, o->note};
        for (const std::string& id : o->rooms) fact.rooms.emplace_back(id);
        for (const std::string& id : o->enclosures) fact.enclosures.emplace_back(id);
        return fact;
    };
}

}  // namespace mitefall::cli
