#include "formats/text/plan_ways.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "formats/text/layout.h"
#include "formats/text/show.h"
#include "plan/reach.h"
#include "units/text.h"
#include "words/words.h"

namespace mitefall::formats {

std::string other_ways_text(const plan::PlanChoice& choice, const std::vector<plan::Rung>& rungs) {
    std::string text =
        "\nOther ways, each with a better chance or lighter than all others tried (chances on fewer draws, "
        "some points off):\n";
    for (const plan::FrontierCourse& one : choice.frontier) {
        text += fmt::format("  {:>7}  {} spraying{}, {} tasks: {}\n", units::show_chance(one.clear.mean),
                            one.burden.on_animal, one.burden.on_animal == 1 ? "" : "s", one.burden.tasks,
                            words::say(plan::tell(one.course, one.rounds, one.does)));
    }
    text += "\nWhat each round buys, all else as recommended:\n";
    const base::Band* before = &choice.untreated;
    for (const plan::Rung& rung : rungs) {
        text += fmt::format("  {} round{}  {}  {:+.1f} points\n", rung.rounds, rung.rounds == 1 ? " " : "s",
                            show_band(rung.clear), 100 * (rung.clear.mean - before->mean));
        before = &rung.clear;
    }
    return text;
}

std::string refused_text(const plan::Schedule& schedule) {
    constexpr std::size_t told = 3;
    const auto refused = plan::refused_in(schedule);
    if (refused.empty()) return {};
    std::string text = "The safety check permits none of this in the recommended plan:\n";
    for (const plan::Refused& one : refused) {
        const std::size_t number = std::min(one.reasons.size(), told);
        for (const safety::Reason& why : std::span(one.reasons).first(number))
            text += wrap(fmt::format("{}: {}.", records::describe(one.method), words::say_with_remedy(why)),
                         "  ", "    ");
        if (number < one.reasons.size())
            text += fmt::format("  and {} more reasons; --json has them all\n", one.reasons.size() - number);
    }
    return text + "\n";
}

}  // namespace mitefall::formats
