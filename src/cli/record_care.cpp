#include "cli/record_options.h"

namespace mitefall::cli {

FactMaker meal_options(CLI::App& command) {
    using Meal = records::MealNoted;
    return FactOptions<Meal>(command)
        .needs("ANIMAL", &Meal::animal)
        .needs("OUTCOME", &Meal::outcome, records::list_texts<records::MealOutcome>())
        .may("--prey", &Meal::prey, "What it was, like \"adult mouse\"")
        .may("--number", &Meal::number, "How many (default: not known)")
        .may("--mass", &Meal::mass, "Of all of it together, like \"25 g\" (default: not known)")
        .flag("--treated-prey", &Meal::treated_prey,
              "It had been treated for mites of its own: never feed it");
}

FactMaker eggs_options(CLI::App& command) {
    using Eggs = records::EggsNoted;
    return FactOptions<Eggs>(command)
        .needs("ENCLOSURE", &Eggs::enclosure)
        .flag("--gone", &Eggs::present, "They hatched, or were taken away", false);
}

}  // namespace mitefall::cli
