#include "formats/text/exposure.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/exposure_table.h"
#include "formats/text/layout.h"
#include "words/words.h"

namespace mitefall::formats {

namespace {

bool is_without_a_find(const exposure::Tracing& tracing) {
    return std::none_of(tracing.exposed.begin(), tracing.exposed.end(),
                        [](const exposure::Exposed& row) { return row.sighted; });
}

}  // namespace

std::string exposure_text(const exposure::Tracing& tracing, const records::Collection& collection) {
    std::string text = heading("Who is exposed");
    if (is_without_a_find(tracing))
        text += "No mite was seen: this is what contact with the outside may have brought, and where to.\n\n";
    text += exposure_table(tracing, collection);
    const auto without = std::count_if(tracing.exposed.begin(), tracing.exposed.end(),
                                       [](const exposure::Exposed& row) { return !(row.chance > 0); });
    if (without > 0)
        text += fmt::format("{} more enclosures: no contact on record in {} days. That is not proof.\n",
                            without, (tracing.to - tracing.from).count());
    if (!tracing.arrivals.empty()) {
        text += "\nWho may have brought them:\n";
        for (const exposure::Arrival& arrival : tracing.arrivals)
            text += wrap(words::say(arrival.what), "  - ", "    ");
    }
    if (tracing.to < collection.day)
        text += fmt::format(
            "\nThe last sighting is longer ago than contacts are traced. This is what it reached up to {}.\n",
            units::format_day(tracing.to));
    return text +
           "\nTonight: nothing leaves an exposed enclosure for another; tools and hides stay where they "
           "are.\n";
}

}  // namespace mitefall::formats
