#include "formats/text/late.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "formats/text/layout.h"
#include "formats/text/names.h"
#include "formats/text/show.h"
#include "plan/course.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

using worklist::CatchUp;
using worklist::Late;
using worklist::LateDish;
using worklist::LateRound;
using worklist::Redated;

std::string counted(int number, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", number, number == 1 ? one : many);
}

std::string dish_text(const LateDish& dish, const records::Collection& collection) {
    const std::string place = enclosure_name(collection, dish.enclosure);
    if (!dish.since || !dish.back_by)
        return fmt::format("The water dish of {} is out, nobody knows since when. Put it back now.", place);
    return fmt::format(
        "{}: no water dish since {}, {}. It was to be back by {}: put it back "
        "now.",
        place, units::format_day_short(*dish.since),
        counted(static_cast<int>((collection.day - *dish.since).count()), "day", "days"),
        units::format_day_short(*dish.back_by));
}

std::string round_text(const LateRound& round) {
    std::string text =
        fmt::format("Round {} of {}, planned for {}, {}: {} in {}.", round.number, round.of,
                    units::format_day_short(round.planned), round.done > 0 ? "is done in part" : "was missed",
                    counted(round.tasks, "task is left", "tasks are left"),
                    counted(round.enclosures, "enclosure", "enclosures"));
    if (round.overtaken) return text + " A later round is due as well and takes its place.";
    if (const int not_now = round.tasks - round.today; not_now > 0)
        text += fmt::format(" {} not permitted today; the list says why.",
                            counted(not_now, "of them is", "of them are"));
    return text;
}

std::string days_text(const std::vector<units::Day>& days) {
    std::string text;
    for (const units::Day day : days) text += (text.empty() ? "" : ", ") + units::format_day_short(day);
    return text;
}

/// From `today` on.
std::vector<units::Day> to_come(const Redated& course, units::Day today) {
    const auto first = std::lower_bound(course.rounds.begin(), course.rounds.end(), today);
    return {first, course.rounds.end()};
}

std::string choice_text(std::string_view name, const Redated& course, CatchUp how, units::Day today) {
    std::string text = fmt::format("{}: rounds on {}.", name, days_text(to_come(course, today)));
    for (const worklist::HeldRound& held : course.held)
        text += fmt::format(" That of {} goes to {}: rounds are at least {} days apart.",
                            units::format_day_short(held.planned), units::format_day_short(held.day),
                            plan::shortest_interval);
    if (!course.given_up.empty()) text += fmt::format(" Given up: {}.", days_text(course.given_up));
    return text + fmt::format(" Type \"catch-up {}\".", worklist::to_text(how));
}

}  // namespace

std::string late_text(const Late& late, const records::Collection& collection) {
    if (!late.is_any()) return {};
    std::string text = heading("Late");
    for (const LateDish& dish : late.dishes) text += wrap(dish_text(dish, collection), "  ! ", "    ");
    for (const LateRound& round : late.rounds) text += wrap(round_text(round), "  ! ", "    ");
    if (late.today)
        text +=
            wrap(choice_text("Do it today", *late.today, CatchUp::today, collection.day), "    ", "      ");
    if (late.move)
        text +=
            wrap(choice_text("Move the rest", *late.move, CatchUp::move, collection.day), "    ", "      ");
    if (late.today) text += "    \"late\" works out the chance of each.\n";
    if (late.check)
        text += wrap(
            fmt::format("Nobody has looked for mites in {} since {}, when it was due; the checks are "
                        "on the list.",
                        counted(static_cast<int>(late.check->enclosures.size()), "enclosure", "enclosures"),
                        units::format_day_short(late.check->planned)),
            "  ! ", "    ");
    return text;
}

std::string late_chances_text(const LateChancesView& chances) {
    std::string text;
    if (chances.stood)
        text += fmt::format("As the course stood on {}: {}.\n", units::format_day_short(chances.stood_on),
                            show_band(*chances.stood));
    text += fmt::format("If it is done today:        {}.\n", show_band(chances.today));
    if (chances.move) text += fmt::format("If the rest is moved:       {}.\n", show_band(*chances.move));
    return heading("The chance that the course clears every mite") + text;
}

}  // namespace mitefall::formats
