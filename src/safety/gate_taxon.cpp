#include "safety/gates.h"
#include "safety/handling.h"
#include "safety/methods.h"

// Which kinds of animal may be given what. Chelonians: Teare & Bush 1983.
namespace mitefall::safety {
namespace {

using evidence::TaxonGroup;
using records::Method;

/// A question back. What is like a name never decides: the keeper does.
statement::Statement enter_species(const Question& question) {
    const auto& suggestions = question.with.survey.suggestions;
    const auto found = suggestions.find(question.animal.id);
    if (found == suggestions.end() || found->second.empty()) return says::enter_species();
    statement::Names names;
    for (const std::string& name : found->second) names.push_back({{}, name});
    return says::enter_species_like(names);
}

void check_unknown(const Question& question, Findings& findings) {
    if (leaves_animal_alone(question.request.method)) return;
    const std::string& written = question.animal.taxon;
    refuse(findings, question.with.tables,
           written.empty() ? says::species_missing() : says::species_unknown(written),
           enter_species(question));
}

void check_acaricide(const Question& question, Findings& findings) {
    const auto& tables = question.with.tables;
    const TaxonGroup group = question.taxon->group;
    const bool is_ivermectin = agent_of(question.request.method) == Agent::ivermectin;
    const bool is_by_mouth = agent_of(question.request.method) == Agent::isoxazoline;
    if (group == TaxonGroup::indigo_snake || (group == TaxonGroup::skink && !is_by_mouth)) {
        refuse(findings, tables, says::no_acaricide_for_kind(term(group)), says::gentler_methods());
    } else if (is_ivermectin && (group == TaxonGroup::chelonian || group == TaxonGroup::crocodilian)) {
        refuse(findings, tables, says::no_ivermectin_for_kind(term(group)), says::gentler_methods());
    } else if (group != TaxonGroup::snake) {
        refuse(findings, tables, says::not_a_snake(term(group)), says::gentler_methods());
    } else if (question.taxon->unidentified) {
        refuse(findings, tables, says::snake_not_named(), says::name_species_or_vet());
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

/// Snakes alone have no lids: a bud goes to the rim of the cap.
bool has_eye_caps(TaxonGroup group) {
    return group == TaxonGroup::snake || group == TaxonGroup::indigo_snake;
}

void check_without_acaricide(const Question& question, Findings& findings) {
    const auto& tables = question.with.tables;
    const Method method = question.request.method;
    const TaxonGroup group = question.taxon->group;
    if (question.taxon->perhaps_venomous && is_by_hand(method))
        refuse(findings, tables, says::perhaps_venomous(), says::name_species_meanwhile());
    if (method == Method::clear_head) {
        if (!has_eye_caps(group))
            refuse(findings, tables, says::head_of_other_kind(term(group)), says::paper_and_vet());
        return;
    }
    if (leaves_animal_alone(method) || houses_anew(method) || bears_handling(group)) return;
    refuse(findings, tables,
           target_of(method) == Target::animal ? says::not_for_kind(term(group))
                                               : says::effect_not_known(term(method), term(group)),
           says::paper_and_vet());
}

/// Whoever is meant to give a drug by mouth or needle is the veterinarian, who is asked anyway.
void check_venomous(const Question& question, Findings& findings) {
    if (!question.taxon->venomous || !is_by_hand(question.request.method)) return;
    refuse(findings, question.with.tables, says::venomous(), says::shift_box());
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
