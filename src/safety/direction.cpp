#include <algorithm>
#include <utility>

#include "safety/gates.h"
#include "safety/methods.h"
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
    const std::vector<Told>& all = question.told;
    return std::count_if(all.begin(), all.end(), [&](const Told& one) {
        return !one.is_wet_paper && one.method == direction.value.method && one.when.day >= direction.day;
    });
}

/// Why it does not reach this treatment; empty where it does.
statement::Statement shortfall(const Question& question, const Direction& direction) {
    const auto strongest = strongest_of(direction, question.with.tables);
    if (strongest && !units::is_within(question.request.strength, *strongest))
        return says::direction_goes_up_to(*strongest, question.request.strength);
    const int named = std::max(1, direction.value.treatments);
    if (number_used(question, direction) < named) return {};
    return named == 1 ? says::direction_for_one() : says::direction_for_some(named);
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

void lift(const Question& question, const Direction& direction, Findings& findings) {
    const Case& with = question.with;
    const statement::Names animal = named(question.animal);
    std::vector<Reason> kept;
    for (Reason& reason : findings.reasons) {
        if (is_lifted(reason, direction, with.collection.first_told)) {
            Caution& lifted = heed(findings.cautions, with.tables, says::lifted(animal, {reason.what}));
            lifted.source = reason.source;
            lifted.tag = reason.tag;
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
    const auto& [day, directed] = std::pair(direction->day, direction->value);
    const statement::Names animal = named(question.animal);
    const statement::Statement missing = shortfall(question, *direction);
    heed(findings.cautions, question.with.tables,
         missing.empty() ? says::directed(animal, directed.who, day, directed.text)
                         : says::directed_short(animal, directed.who, day, directed.text, {missing}));
    if (missing.empty()) lift(question, *direction, findings);
}

}  // namespace mitefall::safety
