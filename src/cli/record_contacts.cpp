#include "cli/record_options.h"

namespace mitefall::cli {

FactMaker handling_options(CLI::App& command) {
    using records::Handled;
    return FactOptions<Handled>(command)
        .needs("ANIMALS", &Handled::animals, "In the order in which they were handled")
        .flag("--shared-bag", &Handled::shared_bag, "They were put into the same bag or tub");
}

FactMaker shared_item_options(CLI::App& command) {
    using records::ItemShared;
    return FactOptions<ItemShared>(command)
        .needs("ITEM", &ItemShared::item, "Tool, hide or water bowl")
        .needs("--from", &ItemShared::from, "Enclosure it was used in")
        .needs("--to", &ItemShared::to, "Enclosure it was used in next");
}

FactMaker outside_options(CLI::App& command) {
    using Contact = records::OutsideContact;
    return FactOptions<Contact>(command)
        .needs("WHAT", &Contact::what, records::list_texts<records::OutsideKind>())
        .may("--room", &Contact::rooms, "Rooms it may have reached (default: nobody knows, so any)")
        .may("--enclosure", &Contact::enclosures, "Enclosures it may have reached")
        .may("--note", &Contact::note);
}

}  // namespace mitefall::cli
