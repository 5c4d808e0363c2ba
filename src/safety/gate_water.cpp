#include <fmt/format.h>

#include "mixing/dose.h"
#include "safety/gates.h"
#include "safety/methods.h"
#include "units/text.h"

// Water to drink, and wet paper to lie on.
namespace mitefall::safety {
namespace {

using records::Condition;

constexpr const char* without_dish =
    "nothing is sprayed with the water dish in, and it is never left without";
constexpr const char* other_ways = "use soak, wipe and paper changes, the dish stays in; ask a veterinarian";

bool needs_water(Condition condition) {
    return condition == Condition::thin || condition == Condition::dehydrated ||
           condition == Condition::neonate;
}

/// Not lifted by a veterinarian's direction: it says what is sprayed, not that nobody drinks.
void keep_dish(std::string why, Findings& findings) {
    Reason reason =
        against(Ruling::wait_until, fmt::format("{}: {}", why, without_dish), our_assumption(), other_ways);
    findings.reasons.push_back(std::move(reason));
}

}  // namespace

void check_water(const Question& question, Findings& findings) {
    if (!is_ivermectin_spray(question.request.method)) return;
    if (question.taxon && question.taxon->rainforest) {
        findings.reasons.push_back(
            against(Ruling::never,
                    fmt::format("a {} dries out quickly: {}", question.taxon->shown_name(), without_dish),
                    our_assumption(), other_ways));
    }
    for (const auto& noted : question.animal.conditions) {
        if (needs_water(noted.value.condition))
            keep_dish(fmt::format("it is {}", records::to_text(noted.value.condition)), findings);
    }
    const auto least = question.with.tables.mass("dry_min_body_mass");
    const auto mass = valid_mass(question.animal, question.request.day, question.with.tables);
    if (mass && *mass < least.value)
        keep_dish(
            fmt::format("it weighs less than {} g", units::show_number(units::in_grams(least.value), 4)),
            findings);
}

void check_damp_paper(const Question& question, Findings& findings) {
    const Request& request = question.request;
    const auto& tables = question.with.tables;
    const auto mass = valid_mass(question.animal, request.day, tables);
    if (request.method != records::Method::spray_bedding || !mass) return;
    const auto dose = mixing::damp_paper_dose(request.strength, *mass, tables);
    if (!dose) return;
    const auto skin = mixing::skin_on_paper(*mass, tables);
    findings.cautions.push_back(
        about(question.animal,
              fmt::format("paper wet with {} brings about {} a day to its skin ({} to {}), taking {} cm2 of "
                          "belly and coil to meet all that wets the paper under it",
                          units::show(request.strength), units::show(dose->likely), units::show(dose->low),
                          units::show(dose->high),
                          units::show_number(units::in_square_centimetres(skin.likely), 2)),
              basis_of(tables.part("skin_on_paper"))));
}

}  // namespace mitefall::safety
