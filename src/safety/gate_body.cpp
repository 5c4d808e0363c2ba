#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "safety/gates.h"
#include "safety/methods.h"
#include "safety/shed.h"
#include "units/text.h"

// Weight and shed.
namespace mitefall::safety {
namespace {

using records::Method;
using records::ShedState;

void refuse_missing_mass(const Question& question, Findings& findings) {
    const auto valid_for = question.with.tables.time("weight_valid_for");
    const auto& weight = question.animal.weight;
    const double days = units::in_days(valid_for.value);
    findings.reasons.push_back(
        missing_fact(weight ? fmt::format("the weight of {} is too old: weights count for {} days",
                                          units::show_day(weight->day), units::show_number(days, 3))
                            : "no weight is on file",
                     basis_of(valid_for), "weigh it"));
}

std::string mass_text(units::Mass mass) { return units::show_number(units::in_grams(mass), 4) + " g"; }

/// Since when every weighing was below `limit`.
records::Dated light_since(const records::Animal& animal, units::Mass limit) {
    records::Dated since{animal.weight->day, animal.weight->entry};
    for (auto one = animal.weighings.rbegin(); one != animal.weighings.rend() && one->value < limit; ++one)
        since = {one->day, one->entry};
    return since;
}

void refuse_light_animal(const Question& question, units::Mass mass, Findings& findings) {
    const auto on_animal = question.with.tables.mass("spray_min_body_mass");
    const auto bedding = question.with.tables.mass("bedding_min_body_mass");
    if (mass >= on_animal.value) return;
    if (mass >= bedding.value) {
        Reason reason = against(Ruling::bedding_only,
                                fmt::format("it weighs {}; spray on the animal needs at least {}",
                                            mass_text(mass), mass_text(on_animal.value)),
                                basis_of(on_animal), "spray the bedding only, with the animal out");
        reason.since = light_since(question.animal, on_animal.value);
        findings.reasons.push_back(std::move(reason));
        return;
    }
    Reason reason = against(
        Ruling::ask_vet,
        fmt::format("it weighs {}; ivermectin spray needs at least {} for the bedding and {} for the animal",
                    mass_text(mass), mass_text(bedding.value), mass_text(on_animal.value)),
        basis_of(bedding), gentler_methods);
    reason.since = light_since(question.animal, bedding.value);
    findings.reasons.push_back(std::move(reason));
}

}  // namespace

std::optional<units::Mass> valid_mass(const records::Animal& animal, units::Day day,
                                      const evidence::Tables& tables) {
    if (!animal.weight) return std::nullopt;
    const auto age = static_cast<double>((day - animal.weight->day).count());
    const double grams = units::in_grams(animal.weight->value);
    const bool is_fresh = age >= 0 && age <= units::in_days(tables.time("weight_valid_for").value);
    if (!is_fresh || !(grams > 0) || !std::isfinite(grams)) return std::nullopt;
    return animal.weight->value;
}

void check_weight(const Question& question, Findings& findings) {
    const Method method = question.request.method;
    if (!is_ivermectin_spray(method) && method != Method::fipronil_wipe) return;
    const auto mass = valid_mass(question.animal, question.request.day, question.with.tables);
    if (!mass) return refuse_missing_mass(question, findings);
    if (is_ivermectin_spray(method)) refuse_light_animal(question, *mass, findings);
}

namespace {

std::string text_of(const ShedAwaited& awaited) {
    const std::string since = units::show_day(awaited.since);
    return awaited.seen == ShedState::cloudy
               ? fmt::format("it is about to shed (cloudy since {})", since)
               : fmt::format(
                     "it was cloudy from {} and is clear now, and no shed was seen: it may be to come",
                     since);
}

/// A cloudy animal gets nothing on its skin on the day on which it is judged, however long it has been
/// cloudy. For a later day its shed is counted on by the usual time: on that day it is asked for again.
void check_awaited(const Question& question, const ShedAwaited& awaited, Findings& findings) {
    const auto cloudy_to_shed = question.with.tables.time("cloudy_to_shed");
    if (question.request.method == Method::soak) {
        findings.cautions.push_back(
            about(question.animal, "it is about to shed: plain water only, nothing rubbed or pulled off",
                  published(question.with.tables, "veterinary-handbook", evidence::Tag::memory)));
        return;
    }
    const bool is_ahead = question.request.day > question.with.collection.day;
    if (question.request.day >= awaited.free_from && is_ahead) {
        if (awaited.seen == ShedState::cloudy)
            findings.cautions.push_back(about(
                question.animal,
                fmt::format("only once it has shed (cloudy since {}): record the shed, go on the day after",
                            units::show_day(awaited.since)),
                basis_of(cloudy_to_shed)));
        return;
    }
    Reason reason =
        wait(text_of(awaited), awaited.free_from,
             awaited.seen == ShedState::cloudy ? basis_of(cloudy_to_shed)
                                               : basis_of(question.with.tables.time("clear_to_shed")));
    reason.remedy = "wait for the shed, record it, and go on the day after";
    findings.reasons.push_back(std::move(reason));
}

}  // namespace

void check_shed(const Question& question, Findings& findings) {
    const auto& shed = question.animal.shed;
    if (!shed || !touches_skin(question.request.method)) return;
    const auto awaited = shed_awaited(question.animal, question.with.collection.day, question.with.tables);
    if (awaited) return check_awaited(question, *awaited, findings);
    if (shed->value != ShedState::shed) return;
    const auto after_shed = question.with.tables.time("wait_after_shed");
    const units::Day from = shed->day + units::Days(std::lround(std::ceil(units::in_days(after_shed.value))));
    if (question.request.day >= from) return;
    findings.reasons.push_back(wait("it shed on " + units::show_day(shed->day), from, basis_of(after_shed)));
}

}  // namespace mitefall::safety
