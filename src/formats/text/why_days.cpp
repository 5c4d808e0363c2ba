#include "formats/text/why_days.h"

#include <fmt/format.h>

#include <numeric>

#include "formats/text/layout.h"
#include "formats/text/show.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

constexpr std::array stage_words{"egg", "larva", "protonymph, until it has fed", "deutonymph",
                                 "adult, until her first eggs"};

std::string hundredths(double share) { return fmt::format("{:.0f}", 100 * share); }
std::string hundredths(const base::Band& band) {
    return fmt::format("{:.0f} ({:.0f}-{:.0f})", 100 * band.mean, 100 * band.p10, 100 * band.p90);
}

double sum(const forecast::Shares& shares, std::size_t from, std::size_t to) {
    double all = 0;
    for (const auto& cohort : shares)
        all = std::accumulate(cohort.begin() + static_cast<std::ptrdiff_t>(from),
                              cohort.begin() + static_cast<std::ptrdiff_t>(to), all);
    return all;
}

std::string stages_text(const StripEnclosure& told) {
    Table table({"PART OF LIFE", "DAYS", "FOUR IN FIVE"});
    for (std::size_t s = 0; s < told.lasts.size(); ++s) {
        const auto& lasts = told.lasts.at(s);
        table.add({stage_words.at(s), lasts ? fmt::format("{:.1f}", lasts->mean) : "too cold for it",
                   lasts ? fmt::format("{:.1f}-{:.1f}", lasts->p10, lasts->p90) : "-"});
    }
    return table.text();
}

std::string gates_text(const StripEnclosure& told) {
    Table table({"DAY", "DONE THERE", "EGGS", "OTHERS", "CAUGHT", "EGGS THAT PASS", "OTHERS THAT PASS"});
    for (const StripGate& gate : told.gates) {
        std::string done;
        for (const records::Method method : gate.methods)
            done += (done.empty() ? "" : ", ") + std::string(records::describe(method));
        table.add({units::show_day(gate.day), done.empty() ? "nothing is permitted" : done,
                   hundredths(sum(gate.before, 0, 1)), hundredths(sum(gate.before, 1, stage_words.size())),
                   hundredths(gate.caught), hundredths(gate.passed),
                   hundredths(sum(gate.after, 1, stage_words.size()))});
    }
    for (const StripCheck& check : told.checks)
        table.add({units::show_day(check.day), "check", "", "", "", "alive: " + hundredths(check.alive), ""});
    return table.text();
}

}  // namespace

std::string why_days_text(const StripView& view, const records::Collection& names, units::Display display) {
    std::string text = heading("Why these days");
    text += wrap(fmt::format("Chance of clear by {} with the rounds on these days: {}.",
                             units::show_day(view.by), show_band(view.clear)),
                 "", "");
    for (const StripEnclosure& told : view.enclosures) {
        text += heading(fmt::format("{}, {} by day, {} by night", names.enclosures.at(told.enclosure).name,
                                    units::show(told.by_day, display), units::show(told.by_night, display)));
        text += stages_text(told) + "\n";
        text += wrap(fmt::format("Of 100 alive in it on {}, eggs counted, and of their young, as if it stood "
                                 "alone:",
                                 units::show_day(view.day_zero)),
                     "", "");
        text += gates_text(told);
    }
    return text;
}

}  // namespace mitefall::formats
