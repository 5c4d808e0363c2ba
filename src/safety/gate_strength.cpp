#include <cmath>

#include "mixing/compare.h"
#include "mixing/dose.h"
#include "safety/acknowledged.h"
#include "safety/gates.h"
#include "safety/methods.h"
#include "units/within.h"

// The strength of the mix against what has been published.
namespace mitefall::safety {
namespace {

bool is_possible(units::Strength strength) {
    return strength > units::Strength{} && strength <= units::percent_mass_in_volume(100);
}

/// With what a misting would leave on the animal, where there is one and its weight is known.
Against strong_spray(const Case& with, const Request& request, const records::Animal* animal,
                     const mixing::Comparison& compared) {
    const units::Strength strength = request.strength;
    const double multiple = compared.multiple;
    const bool is_on_animal = request.method == records::Method::spray_animal;
    const auto body =
        animal != nullptr ? valid_mass(*animal, request.day, with.tables) : std::optional<units::Mass>{};
    if (is_on_animal && !body) return says::strong_spray_unweighed(strength, multiple, compared.strongest);
    if (!is_on_animal) return says::strong_spray(strength, multiple, compared.strongest);
    const auto dose = mixing::misted_dose(strength, *body, with.tables);
    if (!dose) return says::strong_spray(strength, multiple, compared.strongest);
    return says::strong_spray_on_animal(strength, multiple, compared.strongest, dose->likely, dose->low,
                                        dose->high, with.tables.dose("injected_dose").value);
}

void check_ivermectin(const Case& with, const Request& request, const records::Animal* animal,
                      Findings& findings) {
    const auto& tables = with.tables;
    if (is_beyond_practice(request.strength, tables)) {
        refuse(findings, tables,
               says::beyond_practice(request.strength, tables.strength("highest_spray_strength").value),
               says::mix_at_most(tables.strength("strength_without_caution").value));
        return;
    }
    const mixing::Comparison compared = mixing::compare_strength(request.strength, tables);
    if (compared.standing == mixing::Standing::weaker) {
        heed(findings.cautions, tables,
             says::weak_spray(request.strength, tables.strength("published_strength_low").value));
    }
    if (compared.standing != mixing::Standing::above) return;
    const Against strong = strong_spray(with, request, animal, compared);
    heed(findings.cautions, tables, {strong.what, strong.origin});
    const bool is_accepted = animal != nullptr ? is_acknowledged(*animal, request.strength, request.day)
                                               : is_acknowledged_for_empty(with.collection, request.strength);
    if (is_accepted) return;
    refuse(findings, tables, strong,
           animal != nullptr ? says::acknowledge_for_animal(compared.limit)
                             : says::acknowledge_for_empty(compared.limit));
}

void check_permethrin(const Case& with, const Request& request, Findings& findings) {
    const units::Strength usual = with.tables.strength("permethrin_strength").value;
    if (units::is_within(request.strength, usual)) return;
    refuse(findings, with.tables, says::strong_permethrin(request.strength, usual),
           says::mix_by_label(usual));
}

}  // namespace

void check_strength(const Case& with, const Request& request, const records::Animal* animal,
                    Findings& findings) {
    const bool is_permethrin = agent_of(request.method) == Agent::pyrethroid;
    if (!is_ivermectin_spray(request.method) && !is_permethrin) return;
    if (!is_possible(request.strength)) {
        refuse(findings, with.tables, says::strength_unknown(), says::bench_first());
        return;
    }
    if (is_permethrin) return check_permethrin(with, request, findings);
    check_ivermectin(with, request, animal, findings);
}

}  // namespace mitefall::safety
