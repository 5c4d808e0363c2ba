#include "formats/text/plan.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/text/layout.h"
#include "formats/text/plan_reach.h"
#include "formats/text/plan_rounds.h"
#include "formats/text/plan_ways.h"
#include "formats/text/show.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

std::vector<std::string> plan_row(const std::string& label, const plan::ScoredPlan& plan,
                                  units::Display display) {
    const plan::Burden& burden = plan.schedule.burden;
    return {label,
            words::say(plan::tell(plan.course, plan.schedule.assignment.rounds, plan.schedule.does)),
            units::show_chance(plan.clear.mean),
            units::show_chance(plan.clear.p10) + " to " + units::show_chance(plan.clear.p90),
            std::to_string(burden.on_animal),
            std::to_string(burden.most_on_one_animal),
            std::to_string(burden.tasks),
            units::show(burden.spray, display)};
}

std::string plans_table(const plan::PlanChoice& choice, units::Display display) {
    Table table(
        {"", "PLAN", "CHANCE OF CLEAR", "RANGE", "SPRAYINGS ON ANIMALS", "MOST ON ONE", "TASKS", "SPRAY"});
    table.add(plan_row("RECOMMENDED", choice.recommended, display));
    for (std::size_t i = 0; i < choice.alternatives.size(); ++i) {
        const bool lighter = choice.alternatives[i].schedule.burden < choice.recommended.schedule.burden;
        table.add(plan_row(fmt::format("{} ({})", i + 1, lighter ? "lighter" : "stronger"),
                           choice.alternatives[i], display));
    }
    return table.text();
}

/// "0.1 points less", to a tenth.
std::string points_text(double difference) {
    if (std::abs(difference) < 0.0005) return "the same to a tenth of a point";
    return fmt::format("{:.1f} points {}", std::abs(difference) * 100, difference < 0 ? "less" : "more");
}

std::string rounding_text(const plan::Rounding& rounding) {
    return fmt::format(
        "The enclosures have {} climates; neighbouring ones were put together into {}. With every one as it "
        "is, "
        "the chance of the recommended plan is {}, on {} draws.\n",
        rounding.climates, rounding.told_apart, points_text(rounding.difference), plan::checked_draws);
}

}  // namespace

std::string plan_text(const plan::PlanChoice& choice, const plan::Setting& setting, const plan::Goal& goal,
                      units::Display display, const std::vector<plan::Rung>& rungs) {
    std::string text = heading("Plans");
    text += fmt::format(
        "Chance that no mite of any stage is alive {:.0f} days from now. The range leaves out the worst and "
        "the best tenth of what is not known. If nothing is done: {}.\n\n",
        goal.horizon_days, show_band(choice.untreated));
    text += refused_text(choice.recommended.schedule) + plans_table(choice, display);
    if (!choice.meets_target && goal.worth_of_a_round == 0) {
        text += fmt::format(
            "\nNo plan inside the safety limits reaches {} at the low end of the range. Recommended is the "
            "one with the best low end (the best mean, where that is nothing). What would help, and by how "
            "many "
            "points: \"what-helps\".\n",
            units::show_chance(goal.target));
    }
    text += rungs.empty() ? "\nOther ways, and what each round buys: \"plan --details\".\n"
                          : other_ways_text(choice, rungs);
    text += rounds_text(choice.recommended, setting) + tubs_text(choice.recommended, setting) +
            reach_text(choice.recommended.schedule, setting);
    text += fmt::format(
        "\nSpray at {}. {} courses were tried; every treatment in them is one the safety check permits.\n",
        units::show(setting.strength), choice.courses_tried);
    if (choice.rests_on_few)
        text += "Hardly any history fits what is on record: another seed may move these chances by points.\n";
    if (choice.rounding) text += rounding_text(*choice.rounding);
    return text + gentler_text(choice.recommended, setting);
}

}  // namespace mitefall::formats
