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

}  // namespace mitefall::cli
