#include <fmt/format.h>

#include "records/method.h"
#include "safety/gates.h"
#include "safety/handling.h"
#include "safety/methods.h"

// Which kinds of animal may be given what. Chelonians: Teare & Bush 1983.
namespace mitefall::safety {
namespace {

using evidence::Tag;
using evidence::TaxonGroup;
using records::Method;

/// A question back. What is like a name never decides: the keeper does.
std::string did_you_mean(const Question& question) {
    const auto& suggestions = question.with.survey.suggestions;
    const auto found = suggestions.find(question.animal.id);
    if (found == suggestions.end() || found->second.empty()) return {};
    std::string names;
    for (const std::string& name : found->second) names += (names.empty() ? "\"" : ", \"") + name + "\"";
    return "did you mean " + names + "? ";
}

void check_unknown(const Question& question, Findings& findings) {
    if (leaves_animal_alone(question.request.method)) return;
    const std::string& written = question.animal.taxon;
    findings.reasons.push_back(missing_fact(
        written.empty() ? "the species is not on file" : "the species \"" + written + "\" is not known here",
        our_assumption(),
        did_you_mean(question) +
            "enter the species; for a snake that is not in the list write \"unlisted snake\" and ask a "
            "veterinarian"));
}

void check_chelonian_or_crocodilian(const Question& question, Findings& findings) {
    const std::string kind(describe(question.taxon->group));
    findings.reasons.push_back(against(
        Ruling::never,
        fmt::format("a {} must not be given ivermectin in any form: tortoises were lamed by 0.025-0.05 mg/kg "
                    "and died from 0.3 mg/kg",
                    kind),
        published(question.with.tables, "teare-bush-1983", Tag::read), gentler_methods));
}

void check_indigo_or_skink(const Question& question, Findings& findings) {
    findings.reasons.push_back(against(
        Ruling::never, fmt::format("a {} must not be given acaricides", describe(question.taxon->group)),
        published(question.with.tables, "veterinary-handbook", Tag::memory), gentler_methods));
}

void check_acaricide(const Question& question, Findings& findings) {
    const TaxonGroup group = question.taxon->group;
    const bool is_ivermectin = agent_of(question.request.method) == Agent::ivermectin;
    const bool is_by_mouth = agent_of(question.request.method) == Agent::isoxazoline;
    if (group == TaxonGroup::indigo_snake || (group == TaxonGroup::skink && !is_by_mouth)) {
        return check_indigo_or_skink(question, findings);
    }
    if (is_ivermectin && (group == TaxonGroup::chelonian || group == TaxonGroup::crocodilian)) {
        return check_chelonian_or_crocodilian(question, findings);
    }
    if (group != TaxonGroup::snake) {
        findings.reasons.push_back(
            against(Ruling::ask_vet,
                    fmt::format("a {} is not a snake: these figures are for snakes", describe(group)),
                    published(question.with.tables, "veterinary-handbook", Tag::memory), gentler_methods));
    } else if (question.taxon->unidentified) {
        findings.reasons.push_back(against(
            Ruling::ask_vet, "the species of this snake is not named; some snakes do not bear acaricides",
            our_assumption(), "name the species or ask a veterinarian"));
    }
}

bool bears_handling(TaxonGroup group) {
    switch (group) {
        case TaxonGroup::snake:
        case TaxonGroup::indigo_snake:
        case TaxonGroup::skink:
        case TaxonGroup::other_lizard:
        case TaxonGroup::chelonian: return true;
        case TaxonGroup::crocodilian:
        case TaxonGroup::amphibian:
        case TaxonGroup::invertebrate:
        case TaxonGroup::fish:
        case TaxonGroup::dog:
        case TaxonGroup::cat:
        case TaxonGroup::bird:
        case TaxonGroup::other_mammal:
        case TaxonGroup::other: return false;
    }
    return false;
}

void check_without_acaricide(const Question& question, Findings& findings) {
    const Method method = question.request.method;
    if (question.taxon->perhaps_venomous && is_by_hand(method)) {
        findings.reasons.push_back(against(
            Ruling::ask_vet, "the species of this snake is not named; it may be venomous", our_assumption(),
            "name the species; until then look by a paper trap or through the glass"));
    }
    if (leaves_animal_alone(method) || bears_handling(question.taxon->group)) return;
    const std::string_view kind = describe(question.taxon->group);
    findings.reasons.push_back(against(
        Ruling::ask_vet,
        target_of(method) == Target::animal
            ? fmt::format("soaking, washing and wiping are meant for snakes and lizards, not for a {}", kind)
            : fmt::format("what {} does to a {} is not known", records::describe(method), kind),
        our_assumption(), "change the bedding to paper and ask a veterinarian"));
}

/// Whoever is meant to give a drug by mouth or needle is the veterinarian, who is asked anyway.
void check_venomous(const Question& question, Findings& findings) {
    if (!question.taxon->venomous || !is_by_hand(question.request.method)) return;
    findings.reasons.push_back(against(
        Ruling::never, "it is venomous: nothing is done to it by hand from a list", practice(),
        "change the bedding with the animal locked in a shift box; for more, a veterinarian who treats "
        "venomous snakes"));
}

}  // namespace

void check_taxon(const Question& question, Findings& findings) {
    if (!question.taxon) return check_unknown(question, findings);
    check_venomous(question, findings);
    warn_of_handling(question.with, {question.animal.id}, findings.cautions);
    if (agent_of(question.request.method) != Agent::none) return check_acaricide(question, findings);
    check_without_acaricide(question, findings);
}

}  // namespace mitefall::safety
