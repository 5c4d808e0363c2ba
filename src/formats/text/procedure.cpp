#include "formats/text/procedure.h"

#include <fmt/format.h>

#include "formats/text/layout.h"
#include "formats/text/show.h"
#include "units/text.h"

namespace mitefall::formats {

std::string procedure_text(const plan::Procedure& told) {
    std::string days;
    for (const units::Day day : told.looks) days += (days.empty() ? "" : ", ") + units::show_day(day);
    const auto line = [](std::string_view what, const std::optional<base::Band>& band) {
        return band ? wrap(fmt::format("{}: {}.", what, show_band(*band)), "  ", "    ") : std::string();
    };
    const std::string by = units::show_day(told.by);
    return heading("Treat, look, and treat again on a find") +
           wrap(fmt::format("Looks at {} enclosures on {}, until one finds something; then the course once "
                            "more, as it is permitted after the first.",
                            told.looked_at.size(), days),
                "", "") +
           line(fmt::format("Clear by {} with the course alone", by), told.once) +
           line("If that does not end clear: a look finds something", told.found) +
           line(fmt::format("If a look finds something: clear by {}", by), told.again) +
           line(fmt::format("Clear by {}, looks and second course counted", by), told.whole) +
           wrap("A third course is not counted, nor one begun without a find.", "", "");
}

}  // namespace mitefall::formats
