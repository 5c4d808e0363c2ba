#include <fmt/format.h>

#include <algorithm>

#include "records/method.h"
#include "safety/gates.h"
#include "safety/methods.h"
#include "units/text.h"

// Prescription drugs, fipronil, and two agents on one animal.
namespace mitefall::safety {
namespace {

using evidence::Tag;
using records::Method;

bool is_within(const Question& question, const Told& other, units::TimeSpan span) {
    return days_apart(question.request.day, other.when.day) < units::in_days(span);
}

bool is_injection(Method method) { return method == Method::injected_ivermectin; }

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
    findings.reasons.push_back(against(
        Ruling::ask_vet, "fipronil on reptiles is disputed: deaths are reported", handbook, gentler_methods));
    if (question.taxon && question.taxon->no_fipronil) {
        findings.reasons.push_back(
            against(Ruling::never, fmt::format("fipronil is not for a {}", question.taxon->shown_name()),
                    handbook, gentler_methods));
    }
    const auto least = question.with.tables.mass("spray_min_body_mass");
    const auto mass = valid_mass(question.animal, question.request.day, question.with.tables);
    const bool is_small =
        (question.taxon && question.taxon->small_species) || (mass && !(*mass >= least.value));
    if (is_small) {
        findings.reasons.push_back(
            against(Ruling::never, "fipronil is not for small animals", handbook, gentler_methods));
    }
}

void check_two_agents(const Question& question, Findings& findings) {
    if (!exposes_animal(question.request.method)) return;
    const Agent agent = agent_of(question.request.method);
    const auto window = question.with.tables.time("course_window");
    std::vector<Told> others = told_about(question);
    std::erase_if(others, [&](const Told& other) {
        return !exposes_animal(other.method) || agent_of(other.method) == agent ||
               !is_within(question, other, window.value);
    });
    if (others.empty()) return;
    const Told& last = others.back();
    Reason reason =
        against(Ruling::ask_vet,
                fmt::format("{} after or before {} ({}, {}): two acaricides on one animal in one course",
                            name_of(agent), name_of(agent_of(last.method)), records::describe(last.method),
                            units::show_day(last.when.day)),
                published(question.with.tables, "veterinary-handbook", Tag::memory),
                "stay with one, or ask a veterinarian");
    rest_on(reason, others);
    findings.reasons.push_back(std::move(reason));
}

void check_injection(const Question& question, Findings& findings) {
    const Method method = question.request.method;
    if (!is_injection(method) && !is_ivermectin_spray(method)) return;
    const auto distance = question.with.tables.time("spray_after_injection");
    std::vector<Told> others = told_about(question);
    std::erase_if(others, [&](const Told& other) {
        const bool clashes =
            is_injection(method) ? is_ivermectin_spray(other.method) : is_injection(other.method);
        return !clashes || !is_within(question, other, distance.value);
    });
    if (others.empty()) return;
    Reason reason = against(
        Ruling::ask_vet,
        fmt::format("ivermectin as an injection and as a spray within {} days of each other: it gets both",
                    units::show_number(units::in_days(distance.value), 3)),
        basis_of(distance), "use gentler methods meanwhile, or ask the veterinarian who gives the injection");
    rest_on(reason, others);
    findings.reasons.push_back(std::move(reason));
}

}  // namespace mitefall::safety
