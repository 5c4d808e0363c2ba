#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "safety/gates.h"
#include "safety/methods.h"
#include "units/text.h"
#include "units/within.h"

// What a veterinarian's direction lifts (decision 25).
namespace mitefall::safety {
namespace {

using Direction = records::DatedValue<records::VetDirection>;

/// The latest direction for the method that was given by that day.
const Direction* direction_for(const records::Animal& animal, const Request& request) {
    const Direction* latest = nullptr;
    for (const Direction& direction : animal.directions) {
        const bool counts = direction.value.method == request.method && direction.day <= request.day;
        if (counts && (latest == nullptr || direction.day >= latest->day)) latest = &direction;
    }
    return latest;
}

/// One that names no strength goes no further than what is usual without it.
std::optional<units::Strength> strongest_of(const Direction& direction, const evidence::Tables& tables) {
    const records::Method method = direction.value.method;
    if (!is_ivermectin_spray(method) && agent_of(method) != Agent::pyrethroid) return std::nullopt;
    if (direction.value.strength > units::Strength{}) return direction.value.strength;
    if (is_ivermectin_spray(method)) return tables.strength("strength_without_caution").value;
    return tables.strength("permethrin_strength").value;
}

/// Treatments of the method from the direction's day on, given and proposed.
std::ptrdiff_t number_used(const Question& question, const Direction& direction) {
    const std::vector<Told> all = told_about(question);
    return std::count_if(all.begin(), all.end(), [&](const Told& one) {
        return !one.is_wet_paper && one.method == direction.value.method && one.when.day >= direction.day;
    });
}

/// Why it does not reach this treatment; empty where it does.
std::string shortfall(const Question& question, const Direction& direction) {
    const auto strongest = strongest_of(direction, question.with.tables);
    if (strongest && !units::is_within(question.request.strength, *strongest)) {
        return fmt::format("it goes up to {}, this is {}", units::show(*strongest),
                           units::show(question.request.strength));
    }
    const int named = std::max(1, direction.value.treatments);
    if (number_used(question, direction) < named) return {};
    return named == 1 ? "it was for one treatment, which is given or planned"
                      : fmt::format("it was for {} treatments, which are given or planned", named);
}

/// A direction put right since was given when it was first told; a sign put right is known since then.
bool was_known(const Reason& reason, const Direction& direction, const records::FirstTold& first_told) {
    const auto first = first_told.find(direction.entry);
    const records::FactId given = first == first_told.end() ? direction.entry : first->second;
    return !reason.since ||
           std::pair(reason.since->day, reason.since->entry) < std::pair(direction.day, given);
}

bool is_lifted(const Reason& reason, const Direction& direction, const records::FirstTold& first_told) {
    const bool is_for_vets = reason.ruling == Ruling::ask_vet || reason.ruling == Ruling::bedding_only;
    return is_for_vets && !reason.needs_fact && !reason.beyond_direction &&
           was_known(reason, direction, first_told);
}

void lift(const records::Animal& animal, const Direction& direction, const records::FirstTold& first_told,
          Findings& findings) {
    std::vector<Reason> kept;
    for (Reason& reason : findings.reasons) {
        if (is_lifted(reason, direction, first_told)) {
            findings.cautions.push_back(
                about(animal, "lifted by the direction: " + reason.text, {reason.source, reason.tag}));
        } else {
            kept.push_back(std::move(reason));
        }
    }
    findings.reasons = std::move(kept);
}

}  // namespace

void apply_direction(const Question& question, Findings& findings) {
    const Direction* const direction = direction_for(question.animal, question.request);
    if (direction == nullptr) return;
    const std::string missing = shortfall(question, *direction);
    findings.cautions.push_back(about(
        question.animal,
        fmt::format("directed by {} on {}: {}{}", direction->value.who, units::show_day(direction->day),
                    direction->value.text, missing.empty() ? "" : " (does not reach this: " + missing + ")"),
        {"the veterinarian's direction on record", evidence::Tag::read}));
    if (missing.empty()) lift(question.animal, *direction, question.with.collection.first_told, findings);
}

}  // namespace mitefall::safety
