#include <fmt/format.h>

#include <cmath>

#include "mixing/compare.h"
#include "mixing/dose.h"
#include "safety/acknowledged.h"
#include "safety/gates.h"
#include "safety/methods.h"
#include "units/text.h"
#include "units/within.h"

// The strength of the mix against what has been published.
namespace mitefall::safety {
namespace {

bool is_possible(units::Strength strength) {
    return strength > units::Strength{} && strength <= units::percent_mass_in_volume(100);
}

std::string dose_sentence(const Case& with, const Request& request, std::optional<units::Mass> body) {
    if (request.method != records::Method::spray_animal) return {};
    if (!body) return "; how much a light misting leaves on this animal is unknown without its weight";
    const auto dose = mixing::misted_dose(request.strength, *body, with.tables);
    if (!dose) return {};
    return fmt::format(
        "; a light misting would leave about {} on this animal ({} to {}), where veterinarians inject {}",
        units::show(dose->likely), units::show(dose->low), units::show(dose->high),
        units::show(with.tables.dose("injected_dose").value));
}

std::string multiple_sentence(const Case& with, const Request& request, std::optional<units::Mass> body,
                              const mixing::Comparison& compared) {
    return fmt::format("{} is {} times the strongest published spray ({}){}", units::show(request.strength),
                       units::show_number(compared.multiple, 3), units::show(compared.strongest),
                       dose_sentence(with, request, body));
}

void warn_of_weak_spray(const Case& with, const Request& request, Findings& findings) {
    const auto weakest = with.tables.strength("published_strength_low");
    findings.cautions.push_back(caution(units::show(request.strength) +
                                            " is weaker than any published spray (" +
                                            units::show(weakest.value) + ")",
                                        basis_of(weakest)));
}

void refuse_beyond_practice(const Case& with, const Request& request, Findings& findings) {
    const auto ceiling = with.tables.strength("highest_spray_strength");
    findings.reasons.push_back(against(
        Ruling::never,
        fmt::format("{} is beyond any practice known: nothing above {} is permitted",
                    units::show(request.strength), units::show(ceiling.value)),
        basis_of(ceiling),
        fmt::format("mix at most {}", units::show(with.tables.strength("strength_without_caution").value))));
}

std::string remedy_for(units::Strength limit, const records::Animal* animal) {
    return fmt::format(
        "mix at most {}, or ask a veterinarian, or read this caution and acknowledge the strength {}",
        units::show(limit), animal != nullptr ? "for this animal" : "for places where no animal lives");
}

void check_ivermectin(const Case& with, const Request& request, const records::Animal* animal,
                      Findings& findings) {
    if (is_beyond_practice(request.strength, with.tables))
        return refuse_beyond_practice(with, request, findings);
    const mixing::Comparison compared = mixing::compare_strength(request.strength, with.tables);
    if (compared.standing == mixing::Standing::weaker) warn_of_weak_spray(with, request, findings);
    if (compared.standing != mixing::Standing::above) return;
    const auto body =
        animal != nullptr ? valid_mass(*animal, request.day, with.tables) : std::optional<units::Mass>{};
    const std::string text = multiple_sentence(with, request, body, compared);
    const auto basis = basis_of(with.tables.strength("published_strength_high"));
    findings.cautions.push_back(caution(text, basis));
    const bool is_accepted = animal != nullptr ? is_acknowledged(*animal, request.strength, request.day)
                                               : is_acknowledged_for_empty(with.collection, request.strength);
    if (is_accepted) return;
    findings.reasons.push_back(against(Ruling::ask_vet, text, basis, remedy_for(compared.limit, animal)));
}

void check_permethrin(const Case& with, const Request& request, Findings& findings) {
    const auto usual = with.tables.strength("permethrin_strength");
    if (units::is_within(request.strength, usual.value)) return;
    findings.reasons.push_back(against(
        Ruling::ask_vet,
        fmt::format("{} of permethrin is stronger than the usual {}", units::show(request.strength),
                    units::show(usual.value)),
        basis_of(usual), fmt::format("mix at most {} and follow the label", units::show(usual.value))));
}

}  // namespace

void check_strength(const Case& with, const Request& request, const records::Animal* animal,
                    Findings& findings) {
    const bool is_permethrin = agent_of(request.method) == Agent::pyrethroid;
    if (!is_ivermectin_spray(request.method) && !is_permethrin) return;
    if (!is_possible(request.strength)) {
        findings.reasons.push_back(missing_fact("the strength of the mix is not known", our_assumption(),
                                                "work it out on the mixing bench first"));
        return;
    }
    if (is_permethrin) return check_permethrin(with, request, findings);
    check_ivermectin(with, request, animal, findings);
}

}  // namespace mitefall::safety
