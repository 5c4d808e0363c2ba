#include <algorithm>

#include "safety/gates.h"
#include "safety/methods.h"

// Prescription drugs, fipronil, and two agents on one animal.
namespace mitefall::safety {
namespace {

using records::Method;

bool is_within(const Question& question, const Told& other, units::TimeSpan span) {
    return days_apart(question.request.day, other.when.day) < units::in_days(span);
}

bool is_injection(Method method) { return method == Method::injected_ivermectin; }

}  // namespace

void check_prescription(const Question& question, Findings& findings) {
    if (!is_prescription_only(question.request.method)) return;
    refuse(findings, question.with.tables, says::prescription(), says::record_direction());
}

void check_fipronil(const Question& question, Findings& findings) {
    if (question.request.method != Method::fipronil_wipe) return;
    const auto& tables = question.with.tables;
    refuse(findings, tables, says::fipronil_disputed(), says::gentler_methods());
    if (question.taxon && question.taxon->no_fipronil) {
        refuse(findings, tables, says::fipronil_not_for_kind(question.taxon->shown_name()),
               says::gentler_methods());
    }
    const auto least = tables.mass("spray_min_body_mass");
    const auto mass = valid_mass(question.animal, question.request.day, tables);
    const bool is_small =
        (question.taxon && question.taxon->small_species) || (mass && !(*mass >= least.value));
    if (is_small) refuse(findings, tables, says::fipronil_not_for_small(), says::gentler_methods());
}

void check_two_agents(const Question& question, Findings& findings) {
    if (!exposes_animal(question.request.method)) return;
    const Agent agent = agent_of(question.request.method);
    const auto window = question.with.tables.time("course_window");
    std::vector<Told> others = question.told;
    std::erase_if(others, [&](const Told& other) {
        return !exposes_animal(other.method) || agent_of(other.method) == agent ||
               !is_within(question, other, window.value);
    });
    if (others.empty()) return;
    const Told& last = others.back();
    Reason& reason =
        refuse(findings, question.with.tables,
               says::two_agents(term(agent), term(agent_of(last.method)), term(last.method), last.when.day),
               says::stay_with_one());
    rest_on(reason, others);
}

void check_injection(const Question& question, Findings& findings) {
    const Method method = question.request.method;
    if (!is_injection(method) && !is_ivermectin_spray(method)) return;
    const auto distance = question.with.tables.time("spray_after_injection");
    std::vector<Told> others = question.told;
    std::erase_if(others, [&](const Told& other) {
        const bool clashes =
            is_injection(method) ? is_ivermectin_spray(other.method) : is_injection(other.method);
        return !clashes || !is_within(question, other, distance.value);
    });
    if (others.empty()) return;
    rest_on(refuse(findings, question.with.tables, says::injection_and_spray(distance.value),
                   says::gentler_or_vet_who_injects()),
            others);
}

}  // namespace mitefall::safety
