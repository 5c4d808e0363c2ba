#include "mixing/dose.h"
#include "safety/gates.h"
#include "safety/methods.h"

// Water to drink, and wet paper to lie on.
namespace mitefall::safety {
namespace {

using records::Condition;

bool needs_water(Condition condition) {
    return condition == Condition::thin || condition == Condition::dehydrated ||
           condition == Condition::neonate;
}

}  // namespace

/// Not lifted by a veterinarian's direction: it says what is sprayed, not that nobody drinks.
void check_water(const Question& question, Findings& findings) {
    if (!is_ivermectin_spray(question.request.method)) return;
    const auto& tables = question.with.tables;
    if (question.taxon && question.taxon->rainforest) {
        refuse(findings, tables, says::rainforest(question.taxon->shown_name()), says::dish_stays_in());
    }
    for (const auto& noted : question.animal.conditions) {
        const Condition condition = noted.value.condition;
        if (needs_water(condition))
            refuse(findings, tables, says::keeps_its_dish(term(condition)), says::dish_stays_in());
    }
    const auto least = tables.mass("dry_min_body_mass");
    const auto mass = valid_mass(question.animal, question.request.day, tables);
    if (mass && *mass < least.value)
        refuse(findings, tables, says::too_small_to_go_dry(least.value), says::dish_stays_in());
}

void check_damp_paper(const Question& question, Findings& findings) {
    const Request& request = question.request;
    const auto& tables = question.with.tables;
    const auto mass = valid_mass(question.animal, request.day, tables);
    if (request.method != records::Method::spray_bedding || !mass) return;
    const auto dose = mixing::damp_paper_dose(request.strength, *mass, tables);
    if (!dose) return;
    heed(findings.cautions, tables,
         says::damp_paper_dose(named(question.animal), request.strength, dose->likely, dose->low, dose->high,
                               mixing::skin_on_paper(*mass, tables).likely));
}

}  // namespace mitefall::safety
