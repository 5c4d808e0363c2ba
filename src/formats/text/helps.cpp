#include "formats/text/helps.h"

#include <fmt/format.h>

#include <set>

#include "formats/text/layout.h"
#include "formats/text/show.h"
#include "units/text.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

constexpr double worth_telling = 0.005;  // of the chance; half a point

std::string row_text(const HelpView& help) {
    const std::string what = words::say(help.what);
    return wrap(fmt::format("{}: {:+.0f} points, to {}{}.", what, 100 * help.gain, show_band(help.clear),
                            help.meets_target ? "; that reaches the aim" : ""),
                "  ", "    ") +
           wrap(fmt::format("Then: {}.", words::say(help.course)), "    ", "      ");
}

std::string part_text(const HelpsView& view, std::string_view whose, std::string_view title) {
    std::string text;
    for (const HelpView& help : view.changes) {
        if (help.whose == whose && help.gain >= worth_telling) text += row_text(help);
    }
    return text.empty() ? text : fmt::format("\n{}\n{}", title, text);
}

std::string useless_text(const HelpsView& view) {
    std::string text;
    for (const HelpView& help : view.changes) {
        if (help.gain < worth_telling) text += (text.empty() ? "" : "; ") + words::say(help.what);
    }
    return text.empty() ? text : "\n" + wrap("Would bring less than half a point: " + text + ".", "", "");
}

std::string sources_text(const HelpsView& view) {
    std::set<std::string> sources;
    for (const HelpView& help : view.changes) sources.insert(help.sources.begin(), help.sources.end());
    std::string text;
    for (const std::string& source : sources) text += wrap(source + ".", "  ", "    ");
    return text.empty() ? text
                        : "\nPublished trials of drugs by mouth; the dose is the veterinarian's:\n" + text;
}

}  // namespace

std::string helps_text(const HelpsView& view) {
    std::string text = heading("What would help");
    text +=
        wrap(fmt::format("As things are the best permitted course has {}; the aim is {} at the low end of "
                         "the range.",
                         show_band(view.clear), units::show_chance(view.target)),
             "", "");
    if (view.changes.empty()) return text + "Nothing that could be changed stands in its way.\n";
    text += part_text(view, "keeper", "What you can change, each by itself:");
    if (view.all_own) text += "\nAll of it at once:\n" + row_text(*view.all_own);
    text += part_text(view, "veterinarian", "What to ask a veterinarian, each by itself:");
    return text + useless_text(view) + sources_text(view);
}

}  // namespace mitefall::formats
