#include <string>

#include "cli/parse.h"
#include "cli/record_options.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;
using records::Fact;

struct MealOptions {
    std::string animal, outcome, prey, mass;
    int number = 0;
    bool treated = false;
};

struct EggsOptions {
    std::string enclosure;
    bool gone = false;
};

}  // namespace

FactMaker meal_options(CLI::App& command) {
    const auto o = make_options<MealOptions>();
    command.add_option("ANIMAL", o->animal)->required();
    command.add_option("OUTCOME", o->outcome, records::list_texts<records::MealOutcome>())->required();
    command.add_option("--prey", o->prey, "What it was, like \"adult mouse\"");
    command.add_option("--number", o->number, "How many (default: not known)");
    command.add_option("--mass", o->mass, "Of all of it together, like \"25 g\" (default: not known)");
    command.add_flag("--treated-prey", o->treated, "It had been treated for mites of its own: never feed it");
    return [o]() -> Result<Fact> {
        const auto outcome = parse_choice<records::MealOutcome>("OUTCOME", o->outcome);
        if (!outcome) return fail(outcome.error());
        records::MealNoted fact{records::AnimalId(o->animal), *outcome, o->prey, o->number, {}, o->treated};
        if (o->mass.empty()) return fact;
        const auto mass = for_option("--mass", units::parse_mass(o->mass));
        if (!mass) return fail(mass.error());
        fact.mass = *mass;
        return fact;
    };
}

FactMaker eggs_options(CLI::App& command) {
    const auto o = make_options<EggsOptions>();
    command.add_option("ENCLOSURE", o->enclosure)->required();
    command.add_flag("--gone", o->gone, "They hatched, or were taken away");
    return [o]() -> Result<Fact> { return records::EggsNoted{records::EnclosureId(o->enclosure), !o->gone}; };
}

}  // namespace mitefall::cli
