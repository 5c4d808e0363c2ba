#include "formats/text/matters.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "formats/learnable.h"
#include "formats/text/layout.h"
#include "formats/text/show.h"
#include "units/text.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using forecast::Influence;

/// As many as a keeper will read; the others are named in one line.
constexpr std::size_t told_in_full = 6;

std::string show_value(double value, const std::string& unit) {
    if (unit == "share") return units::show_chance(value);
    const std::string number = units::show_number(value, 2);
    if (unit == "1/d") return number + " per day";
    if (unit == "d") return number + " days";
    return unit == "1" ? number : number + " " + unit;
}

std::string influence_text(const Influence& influence, const ParameterLabel& label) {
    return fmt::format(
        "explains {} of the spread. If it is low ({} or less): {}. If it is high ({} or more): {}.",
        units::show_chance(influence.explained), show_value(influence.low_up_to, label.unit),
        units::show_chance(influence.if_low), show_value(influence.high_from, label.unit),
        units::show_chance(influence.if_high));
}

std::string lesson_text(std::string_view key) {
    const Lesson lesson = lesson_of(key);
    switch (lesson.how_far) {
        case Learnable::yes: return fmt::format("You can find out: {}", lesson.text);
        case Learnable::roughly: return fmt::format("You can find out roughly: {}", lesson.text);
        case Learnable::no: return fmt::format("You cannot find out: {}", lesson.text);
    }
    return {};
}

std::string smaller_text(const std::vector<Influence>& named) {
    std::string text = "Smaller:";
    for (std::size_t i = told_in_full; i < named.size(); ++i)
        text += fmt::format("{} {} ({})", i > told_in_full ? "," : "", named[i].key,
                            units::show_chance(named[i].explained));
    return text + ". \"matters --json\" has them in full.";
}

std::string rest_text(const forecast::Sensitivity& found) {
    const std::string draws = fmt::format("{:.0f}", found.effective_draws);
    if (found.named.empty()) {
        return fmt::format(
            "None of the {} assumptions stands out in {} draws: the answer hardly differs, or each one does "
            "a "
            "little. With more draws (--draws) smaller effects show.",
            found.rest.size(), draws);
    }
    return fmt::format(
        "The rest: none of the other {} assumptions explains more than chance would in {} draws; what is "
        "under "
        "{} does not show. With more draws (--draws) smaller effects do.",
        found.rest.size(), draws, units::show_chance(found.chance_level));
}

}  // namespace

std::string matters_text(const MattersView& view) {
    std::string text = heading("What the answer depends on");
    text += wrap(fmt::format("{} plan ({}): chance of clear {}.", view.adopted ? "Adopted" : "Recommended",
                             words::say(view.plan), show_band(view.clear)),
                 "", "");
    text += "\n";
    const std::vector<Influence>& named = view.sensitivity.named;
    for (std::size_t i = 0; i < std::min(named.size(), told_in_full); ++i) {
        const Influence& influence = named[i];
        const ParameterLabel label = label_of(influence.key, view.tables);
        text +=
            wrap(fmt::format("{} [{}]", label.meaning, influence.key), fmt::format("{:>2}. ", i + 1), "    ");
        text += wrap(influence_text(influence, label), "    ", "    ");
        text += wrap(lesson_text(influence.key), "    ", "    ") + "\n";
    }
    if (named.size() > told_in_full) text += wrap(smaller_text(named), "", "");
    text += wrap(rest_text(view.sensitivity), "", "");
    return text +
           wrap(
               "Not asked here: temperature, humidity, weights and who was where are taken as recorded. "
               "Where they were guessed, measure them first.",
               "", "");
}

}  // namespace mitefall::formats
