#include <algorithm>
#include <cmath>

#include "safety/gates.h"
#include "safety/methods.h"
#include "safety/shed.h"

// Weight and shed.
namespace mitefall::safety {
namespace {

using records::Method;
using records::ShedState;

void refuse_missing_mass(const Question& question, Findings& findings) {
    const auto& tables = question.with.tables;
    const auto& weight = question.animal.weight;
    refuse(
        findings, tables,
        weight ? says::weight_too_old(weight->day, tables.time("weight_valid_for").value) : says::no_weight(),
        says::weigh_it());
}

/// Since when every weighing was below `limit`.
records::Dated light_since(const records::Animal& animal, units::Mass limit) {
    records::Dated since{animal.weight->day, animal.weight->entry};
    for (auto one = animal.weighings.rbegin(); one != animal.weighings.rend() && one->value < limit; ++one)
        since = {one->day, one->entry};
    return since;
}

void refuse_light_animal(const Question& question, units::Mass mass, Findings& findings) {
    const auto& tables = question.with.tables;
    const units::Mass on_animal = tables.mass("spray_min_body_mass").value;
    const units::Mass bedding = tables.mass("bedding_min_body_mass").value;
    if (mass >= on_animal) return;
    const bool is_bedding_possible = mass >= bedding;
    Reason& reason = is_bedding_possible
                         ? refuse(findings, tables, says::too_light_to_spray(mass, on_animal),
                                  says::bedding_with_animal_out())
                         : refuse(findings, tables, says::too_light_for_ivermectin(mass, bedding, on_animal),
                                  says::gentler_methods());
    reason.since = light_since(question.animal, is_bedding_possible ? on_animal : bedding);
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

/// A cloudy animal gets nothing on its skin on the day on which it is judged, however long it has been
/// cloudy. For a later day its shed is counted on by the usual time: on that day it is asked for again.
void check_awaited(const Question& question, const ShedAwaited& awaited, Findings& findings) {
    const auto& tables = question.with.tables;
    if (question.request.method == Method::soak) {
        heed(findings.cautions, tables, says::soak_before_shed(named(question.animal)));
        return;
    }
    const bool is_cloudy = awaited.seen == ShedState::cloudy;
    const bool is_ahead = question.request.day > question.with.collection.day;
    if (question.request.day >= awaited.free_from && is_ahead) {
        if (is_cloudy)
            heed(findings.cautions, tables, says::only_once_shed(named(question.animal), awaited.since));
        return;
    }
    wait(findings, tables,
         is_cloudy ? says::about_to_shed(awaited.since) : says::shed_may_come(awaited.since),
         awaited.free_from)
        .remedy = says::wait_for_shed();
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
    wait(findings, question.with.tables, says::just_shed(shed->day), from);
}

}  // namespace mitefall::safety
