#include "formats/text/cupboard.h"

#include <fmt/format.h>

#include "formats/text/cautions.h"
#include "formats/text/layout.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using safety::Usable;

std::string_view verdict_of(Usable usable) {
    switch (usable) {
        case Usable::nothing: return "USE IT ON NOTHING";
        case Usable::empty_once_thinned: return "EMPTY ENCLOSURES ONLY, thinned first; never on an animal";
        case Usable::empty: return "EMPTY ENCLOSURES ONLY; never on an animal";
        case Usable::animal_once_thinned: return "A STOCK TO MIX A SPRAY FROM; never as it is";
        case Usable::animal: return "MAY BE USED ON AN ANIMAL whose own verdict allows it";
    }
    return {};
}

Tone tone_of(Usable usable) {
    if (usable == Usable::nothing) return Tone::grave;
    return usable == Usable::animal ? Tone::good : Tone::caution;
}

std::string ingredients_table(const safety::LabelRuling& ruling) {
    Table table({"INGREDIENT", "LABEL", "KIND", "ON AN ANIMAL", "EMPTY ENCLOSURE"});
    for (const safety::IngredientRuling& one : ruling.ingredients)
        table.add(
            {one.known ? one.known->name : one.line.name, one.line.amount.empty() ? "-" : one.line.amount,
             one.known ? words::say(statement::Term{"ingredient-class", evidence::to_text(one.known->kind)})
                       : "not known",
             std::string(safety::describe(one.on_animal.ruling)),
             std::string(safety::describe(one.in_empty.ruling))});
    return table.text();
}

std::string reasons_text(std::string_view use, const safety::UseRuling& ruling) {
    if (ruling.reasons.empty()) return {};
    std::string text = fmt::format("{}: {}\n", use, safety::describe(ruling.ruling));
    for (const safety::Reason& reason : ruling.reasons)
        text += wrap(words::say_with_remedy(reason) + ". " + source_note(reason.source, reason.tag), "  - ",
                     "    ");
    return text;
}

std::string price_of(const mixing::Purchase& purchase, units::Display display) {
    return fmt::format("{} x {}{}", purchase.number, units::show(purchase.package.volume, display),
                       purchase.cost ? ": " + mixing::show(*purchase.cost) : "");
}

std::string ready_text(const worklist::Bottle& bottle, units::Display display) {
    if (!bottle.ready) return {};
    const worklist::ReadyToUse& ready = *bottle.ready;
    std::string text =
        fmt::format("The label is {}; it is used at {}", units::show(bottle.ruling.reckoned->strength),
                    units::show(ready.strength));
    if (ready.parts > 1) text += fmt::format(": one part in {}", units::show_number(ready.parts, 4));
    if (ready.volume) text += fmt::format(". One bottle makes {}", units::show(*ready.volume, display));
    if (ready.price_per_litre) text += fmt::format(", {} a litre", mixing::show(*ready.price_per_litre));
    text += ".";
    if (bottle.ruling.usable == Usable::animal_once_thinned)
        text += fmt::format(
            " How it is mixed: mix \"1 L\" --target \"{}\" --stock \"{} mg/mL\" --stock-is plain.",
            units::show(ready.strength),
            units::show_number(units::in_milligrams_per_millilitre(bottle.ruling.reckoned->strength), 6));
    return wrap(text, "", "");
}

std::string course_text(const worklist::Bottle& bottle, units::Display display) {
    if (bottle.course) {
        const std::string bottles =
            bottle.course->purchase ? ", " + price_of(*bottle.course->purchase, display) : "";
        return fmt::format("This course takes {} of it{}.\n", units::show(bottle.course->stock, display),
                           bottles);
    }
    switch (bottle.no_course) {
        case worklist::NoCourse::no_plan: return "No course is adopted: how much it takes is not told.\n";
        case worklist::NoCourse::not_sprayed: return "The adopted course takes none of it.\n";
        case worklist::NoCourse::none:
        case worklist::NoCourse::other_agent: break;
    }
    return {};
}

std::string bottle_text(const worklist::Bottle& bottle, units::Display display) {
    std::string text = toned(tone_of(bottle.ruling.usable), verdict_of(bottle.ruling.usable)) + "\n";
    text += ingredients_table(bottle.ruling) + ready_text(bottle, display) + course_text(bottle, display);
    text += reasons_text("On an animal", bottle.ruling.on_animal);
    text += reasons_text("In an empty enclosure", bottle.ruling.in_empty);
    return text + cautions_text(bottle.ruling.cautions);
}

std::string names_text(const std::vector<std::string>& names) {
    return names.empty() ? "nothing" : fmt::format("{}", fmt::join(names, ", "));
}

std::string compared_text(const safety::LabelComparison& compared) {
    const std::string apart = fmt::format("only in the first: {}; only in the second: {}",
                                          names_text(compared.only_first), names_text(compared.only_second));
    switch (compared.alike) {
        case safety::Alike::same: return "The same thing, by what the labels say.";
        case safety::Alike::other_strength:
            return compared.times
                       ? fmt::format("The same ingredient; the second is {} times as strong as the first.",
                                     units::show_number(*compared.times, 3))
                       : "The same ingredients in other strengths.";
        case safety::Alike::other_form: return "The same ingredients, but made to be used in another way.";
        case safety::Alike::not_told:
            return "The same names, but a strength or what it is is not told: take them for different.";
        case safety::Alike::shared:
            return fmt::format("Not the same. In both: {}; {}.", names_text(compared.both), apart);
        case safety::Alike::different: return fmt::format("Not the same: {}.", apart);
    }
    return {};
}

}  // namespace

std::string cupboard_text(const worklist::Cupboard& cupboard, units::Display display) {
    if (!cupboard.other)
        return heading("What this bottle may be used on") + bottle_text(cupboard.first, display);
    return heading("Are they the same?") + wrap(compared_text(*cupboard.compared), "", "") +
           heading("The first label") + bottle_text(cupboard.first, display) + heading("The second label") +
           bottle_text(*cupboard.other, display);
}

}  // namespace mitefall::formats
