#include "formats/text/prevention.h"

#include <fmt/format.h>

#include "formats/text/layout.h"
#include "formats/text/show.h"
#include "units/text.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

std::string show_points(const base::Band& gain) {
    return fmt::format("{} points ({} to {})", units::show_number(gain.mean * 100, 2),
                       units::show_number(gain.p10 * 100, 2), units::show_number(gain.p90 * 100, 2));
}

}  // namespace

std::string prevention_text(const plan::Prevention& prevention) {
    Table table({"", "CHANCE OF CLEAR AT THE END", "GAIN"});
    table.add({"nothing done", show_band(prevention.nothing), ""});
    table.add(
        {"look at all today, treat if found", show_band(prevention.look), show_points(prevention.look_gain)});
    table.add({fmt::format("look once a week, {} times, treat if found", plan::weekly_looks),
               show_band(prevention.looks), show_points(prevention.looks_gain)});
    table.add({words::say(prevention.one_round_told), show_band(prevention.round),
               show_points(prevention.round_gain)});
    std::string text = heading("Before anything is treated");
    text += wrap(words::say(prevention.advice) + ".", "", "");
    text += wrap(
        fmt::format("Clear already, today: {}; the enclosures in question alone: {}. A look at all of them "
                    "finds something with a chance of {}; if it finds nothing, all is clear already with "
                    "{}.",
                    show_band(prevention.clear_now), show_band(prevention.clear_there),
                    show_band(prevention.finds), show_band(prevention.clear_if_clean)),
        "", "");
    return text + table.text();
}

}  // namespace mitefall::formats
