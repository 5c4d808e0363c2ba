#include "formats/text/given.h"

#include <fmt/format.h>

#include "formats/text/layout.h"
#include "formats/text/names.h"
#include "units/text.h"
#include "words/undo.h"

namespace mitefall::formats {
namespace {

std::string strength_of(const records::Entry& entry) {
    const auto* const given = std::get_if<records::Treated>(&entry.fact);
    if (given == nullptr || !(given->strength > units::Strength{})) return {};
    return ", " + units::show(given->strength);
}

}  // namespace

std::string given_text(const records::Given& given, const records::Collection& names) {
    std::string text = heading(fmt::format("{} ({}), {} to {}", given.name,
                                           given.taxon.empty() ? "kind unknown" : given.taxon,
                                           units::format_day(given.from), units::format_day(given.to)));
    if (names.veterinarian) text += wrap("Veterinarian: " + veterinarian_text(names), "", "  ");
    if (given.died)
        text += wrap(toned(Tone::grave, fmt::format("Died on {}. Keep the body cool, bagged and not frozen.",
                                                    units::format_day(*given.died))),
                     "", "");
    if (given.entries.empty()) return text + "Nothing is on record in these days.\n";
    Table table({"DAY", "WHAT"});
    for (const records::Entry& entry : given.entries)
        table.add({units::format_day(entry.day), words::deed_of(entry.fact, names) + strength_of(entry)});
    return text + table.text() + "From the keeper's records; nothing here is a diagnosis.\n";
}

}  // namespace mitefall::formats
