#include "formats/text/origin.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "formats/origin_rows.h"
#include "formats/text/layout.h"
#include "formats/text/origin_words.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

constexpr std::size_t most_rows = 6;
constexpr double says_little = 0.5;   // bits
constexpr double likely_wrong = 0.5;  // chance that a record is wrong

std::string ways_text(const OriginView& view, const std::vector<OriginRow>& rows) {
    Table table({"CHANCE", "BEFORE", "HOW MITES CAME IN"});
    double told = 0;
    double all = 0;
    for (const OriginRow& row : rows) all += row.chance;
    for (std::size_t i = 0; i < rows.size() && i < most_rows && rows[i].chance >= least_told; ++i) {
        table.add({units::show_chance(rows[i].chance), units::show_chance(rows[i].introduction.prior),
                   tell(view, rows[i])});
        told += rows[i].chance;
    }
    std::string text = table.text();
    if (view.belief.sighted && all - told >= least_told)
        text += fmt::format("Other ways, each less likely: {} together.\n", units::show_chance(all - told));
    if (!view.belief.sighted)
        text += fmt::format("Chance that no mite has come in at all: {}.\n",
                            units::show_chance(view.belief.nothing_came));
    return text;
}

std::string places_text(const OriginView& view) {
    const auto places = belief::mites_by_place(view.belief, view.known.scenario.places.size());
    std::vector<scenario::PlaceIndex> order;
    for (scenario::PlaceIndex p = 0; p < places.size(); ++p) {
        if (places[p].any >= least_told) order.push_back(p);
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](auto a, auto b) { return places[a].any > places[b].any; });
    Table table({"CHANCE OF ANY", "PLACE", "MITES, ALL STAGES", "RANGE"});
    constexpr std::size_t most_places = 12;
    for (std::size_t i = 0; i < order.size() && i < most_places; ++i) {
        const belief::PlaceBelief& place = places[order[i]];
        table.add({units::show_chance(place.any),
                   (is_room(view, order[i]) ? "room " : "") + key_of(view, order[i]),
                   units::show_number(place.expected, 2),
                   units::show_number(place.p10, 2) + " to " + units::show_number(place.p90, 2)});
    }
    std::string text = heading("Where mites were on " + units::show_day(day_of(view, view.belief.at)));
    if (order.empty()) return text + "No place has a chance of 1 % or more.\n";
    text += table.text();
    if (order.size() > most_places)
        text += fmt::format("{} more places with a chance of 1 % or more.\n", order.size() - most_places);
    return text;
}

std::string doubts_text(const OriginView& view) {
    std::string text;
    for (const belief::Doubt& doubt : view.belief.doubts) {
        const scenario::Look& look = view.known.looks[doubt.look];
        if (doubt.chance < likely_wrong) continue;
        text += wrap(fmt::format("What is on record for {} on {} ({} seen) does not fit the rest: {} that it "
                                 "says something wrong. Check that entry.",
                                 key_of(view, look.place), units::show_day(day_of(view, look.time)),
                                 records::to_text(look.seen), units::show_chance(doubt.chance)),
                     "", "");
    }
    return text;
}

std::string trust_text(const OriginView& view) {
    const belief::Belief& belief = view.belief;
    if (belief.looks == 0)
        return "Nobody has looked yet, or nobody wrote it down: this is only what is usual. Record a "
               "check.\n";
    std::string text =
        fmt::format("Read from {} {} on record; what was not written down counts for nothing.\n",
                    belief.looks, belief.looks == 1 ? "look" : "looks");
    if (belief.information < says_little)
        text +=
            "The records say little about this: the chances are close to what they were before any look.\n";
    if (belief::rests_on_few(belief))
        text += "Hardly any history fits these records; take the figures as rough.\n";
    return text + doubts_text(view);
}

}  // namespace

std::string origin_text(const OriginView& view) {
    const std::vector<OriginRow> rows = origin_rows(view);
    return heading(view.belief.sighted ? "Where the mites seen last came from" : "Whether mites came in") +
           ways_text(view, rows) + places_text(view) + trust_text(view);
}

std::string origin_line(const OriginView& view) {
    const std::vector<OriginRow> rows = origin_rows(view);
    if (rows.empty() || !view.belief.sighted) return {};
    std::string line = fmt::format("Most likely the mites came {}: {}", tell(view, rows[0]),
                                   units::show_chance(rows[0].chance));
    if (rows.size() > 1 && rows[1].chance >= least_told)
        line += fmt::format("; next, {}: {}", tell(view, rows[1]), units::show_chance(rows[1].chance));
    return wrap(line + ". More with \"origin\".", "", "");
}

}  // namespace mitefall::formats
