#include "formats/matters.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/json/parts.h"
#include "formats/learnable.h"
#include "formats/text/layout.h"
#include "formats/text/text.h"

namespace mitefall::formats {
namespace {

using forecast::Influence;

/// As many as a keeper will read; the others are named in one line.
constexpr std::size_t told_in_full = 6;

/// What a parameter is, in words, and its unit.
struct Label {
    std::string meaning;
    std::string unit;
};

Label label_of(std::string_view key, const evidence::Tables& tables) {
    for (const auto& row : tables.rows()) {
        if (row.cited.key == key) return {row.cited.meaning, row.unit};
    }
    return {"How many mites there really were, within the range recorded at the sighting", "share"};
}

std::string show_value(double value, const std::string& unit) {
    if (unit == "share") return units::show_chance(value);
    const std::string number = units::show_number(value, 2);
    if (unit == "1/d") return number + " per day";
    if (unit == "d") return number + " days";
    return unit == "1" ? number : number + " " + unit;
}

std::string influence_text(const Influence& influence, const Label& label) {
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

Json influence_json(const Influence& influence, const MattersView& view) {
    const Label label = label_of(influence.key, view.tables);
    const Lesson lesson = lesson_of(influence.key);
    return {{"key", influence.key},
            {"meaning", label.meaning},
            {"unit", label.unit},
            {"explained", number(influence.explained)},
            {"direction", number(influence.direction)},
            {"low_up_to", number(influence.low_up_to)},
            {"clear_if_low", number(influence.if_low)},
            {"high_from", number(influence.high_from)},
            {"clear_if_high", number(influence.if_high)},
            {"can_be_learned", to_text(lesson.how_far)},
            {"how", lesson.text}};
}

}  // namespace

std::string matters_text(const MattersView& view) {
    std::string text = heading("What the answer depends on");
    text += wrap(fmt::format("{} plan ({}): chance of clear {}.", view.adopted ? "Adopted" : "Recommended",
                             view.plan, show_band(view.clear)),
                 "", "");
    text += "\n";
    const std::vector<Influence>& named = view.sensitivity.named;
    for (std::size_t i = 0; i < std::min(named.size(), told_in_full); ++i) {
        const Influence& influence = named[i];
        const Label label = label_of(influence.key, view.tables);
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

Json matters_json(const MattersView& view) {
    const auto influences = [&](const std::vector<Influence>& from) {
        return list(from, [&](const Influence& influence) { return influence_json(influence, view); });
    };
    Json json{{"plan", view.plan}};
    json["adopted"] = view.adopted;
    json["clear"] = band_json(view.clear);
    json["effective_draws"] = number(view.sensitivity.effective_draws);
    json["chance_level"] = number(view.sensitivity.chance_level);
    json["matters"] = influences(view.sensitivity.named);
    json["rest"] = influences(view.sensitivity.rest);
    return json;
}

}  // namespace mitefall::formats
