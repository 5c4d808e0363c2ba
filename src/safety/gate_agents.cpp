#include <fmt/format.h>

#include <algorithm>

#include "records/vocabulary.h"
#include "safety/gates.h"
#include "safety/methods.h"

// Prescription drugs, fipronil, and two agents on one animal.
namespace mitefall::safety {
namespace {

using evidence::Tag;
using records::Method;

const char* const gentle = "use gentler methods (soak, wipe, paper changes) and ask a veterinarian";

std::vector<Application> exposures(const Question& question) {
    std::vector<Application> all(question.proposed.begin(), question.proposed.end());
    for (const auto& given : question.animal.treatments) all.push_back({given.value.method, given.day});
    for (const auto& around : question.animal.exposures) all.push_back({around.value.method, around.day});
    std::erase_if(all, [](const Application& a) { return !exposes_animal(a.method); });
    return all;
}

}  // namespace

void check_prescription(const Question& question, Findings& findings) {
    if (!is_prescription_only(question.request.method)) return;
    findings.reasons.push_back(against(
        Ruling::ask_vet, "this is a prescription drug used outside its label; no dose is worked out here",
        published(question.with.tables, "extra-label-us", Tag::memory),
        "ask a veterinarian and record the direction: who, when, what"));
}

void check_fipronil(const Question& question, Findings& findings) {
    if (question.request.method != Method::fipronil_wipe) return;
    const Basis handbook = published(question.with.tables, "veterinary-handbook", Tag::memory);
    findings.reasons.push_back(
        against(Ruling::ask_vet, "fipronil on reptiles is disputed: deaths are reported", handbook, gentle));
    if (question.taxon && question.taxon->no_fipronil) {
        findings.reasons.push_back(
            against(Ruling::never, fmt::format("fipronil is not for a {}", question.taxon->shown_name()),
                    handbook, gentle));
    }
    const auto least = question.with.tables.mass("spray_min_body_mass");
    const auto mass = valid_mass(question.animal, question.request.day, question.with.tables);
    const bool is_small =
        (question.taxon && question.taxon->small_species) || (mass && !(*mass >= least.value));
    if (is_small) {
        findings.reasons.push_back(
            against(Ruling::never, "fipronil is not for small animals", handbook, gentle));
    }
}

void check_two_agents(const Question& question, Findings& findings) {
    if (!exposes_animal(question.request.method)) return;
    const Agent agent = agent_of(question.request.method);
    const auto window = question.with.tables.time("course_window");
    for (const Application& other : exposures(question)) {
        const auto apart = static_cast<double>(std::abs((question.request.day - other.day).count()));
        if (agent_of(other.method) == agent || !(apart < units::in_days(window.value))) continue;
        findings.reasons.push_back(
            against(Ruling::ask_vet,
                    fmt::format("{} after or before {} ({}, {}): two acaricides on one animal in one course",
                                name_of(agent), name_of(agent_of(other.method)),
                                records::describe(other.method), units::show_day(other.day)),
                    published(question.with.tables, "veterinary-handbook", Tag::memory),
                    "stay with one, or ask a veterinarian"));
        return;
    }
}

}  // namespace mitefall::safety
