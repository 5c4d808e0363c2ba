#include "formats/text/emptied.h"

#include <fmt/format.h>

#include "formats/text/layout.h"
#include "formats/text/show.h"
#include "units/text.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

std::string way_text(const EmptiedWay& way, const EmptiedView& view) {
    const std::string how = words::say(way.how);
    if (!way.from)
        return fmt::format("{}: not by {}, then {}.", how, units::show_day(view.days.back()),
                           show_band(way.clear.back()));
    return fmt::format(
        "{}: from {} on; to be careful {}.", how, units::show_day(*way.from),
        way.careful ? "from " + units::show_day(*way.careful) + " on" : "later than is told here");
}

}  // namespace

std::string emptied_text(const EmptiedView& view, const std::string& name) {
    std::string text = heading(fmt::format("When {} may be lived in again", name));
    text +=
        wrap(fmt::format("{}The day on which no mite of any stage is alive in it with a chance of {}, nobody "
                         "living there and nothing put in.",
                         view.supposed ? "Somebody lives in it: told as if it were emptied today. " : "",
                         units::show_chance(view.target)),
             "", "");
    for (const EmptiedWay& way : view.ways) text += wrap(way_text(way, view), "  ", "    ");
    text += "\n";
    const EmptiedWay& best = view.ways.back();
    Table table({"DAY", "NOTHING ALIVE IN IT, LEFT WHERE IT STANDS", "THE LAST OF THESE WAYS"});
    for (std::size_t i = 0; i < view.days.size(); ++i)
        table.add(
            {units::show_day(view.days[i]), show_band(view.ways.front().clear[i]), show_band(best.clear[i])});
    text += table.text() + "\n";
    for (const statement::Statement& one : view.at_once) text += wrap(words::say(one) + ".", "", "");
    return text;
}

}  // namespace mitefall::formats
