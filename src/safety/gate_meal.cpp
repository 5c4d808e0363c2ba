#include <algorithm>
#include <map>
#include <utility>

#include "safety/gates.h"
#include "safety/methods.h"
#include "units/whole_days.h"

// A meal inside: what lifts, wets or moves the animal waits. One of which little is known waits for longer,
// never less.
namespace mitefall::safety {
namespace {

using records::MealOutcome;
using units::Day;

/// What it ate on one day, all of it together.
struct Eaten {
    units::Mass mass;
    bool is_weighed = true;
};

std::map<Day, Eaten> eaten_by_day(const records::Animal& animal) {
    std::map<Day, Eaten> days;
    for (const auto& meal : animal.meals) {
        if (meal.value.outcome != MealOutcome::eaten) continue;
        Eaten& eaten = days[meal.day];
        eaten.mass += meal.value.mass;
        eaten.is_weighed = eaten.is_weighed && meal.value.mass > units::Mass{};
    }
    return days;
}

/// How long it rests after it, and what is said of it.
struct Rest {
    units::TimeSpan time;
    Against why;
};

Rest rest_after(const Question& question, Day day, const Eaten& eaten) {
    const auto& tables = question.with.tables;
    const auto longer = tables.time("large_meal_rest").value;
    const auto body = valid_mass(question.animal, question.request.day, tables);
    if (!body || !eaten.is_weighed) return {longer, says::meal_of_unknown_size(day, longer)};
    if (eaten.mass > *body * units::as_fraction(tables.part("large_meal").value))
        return {longer, says::large_meal(day, eaten.mass, *body, longer)};
    const auto usual = tables.time("meal_rest").value;
    return {usual, says::just_fed(day, usual)};
}

void wait_for(const Question& question, Day day, Rest rest, Findings& findings) {
    const Day free = units::surely_after(day, rest.time);
    if (question.request.day < free) wait(findings, question.with.tables, std::move(rest.why), free);
}

void check_brought_up(const Question& question, Findings& findings) {
    const auto& tables = question.with.tables;
    const auto window = tables.time("course_window").value;
    const auto rest = tables.time("regurgitation_rest").value;
    records::Dated last;
    int times = 0;
    for (const auto& meal : question.animal.meals) {
        if (meal.value.outcome != MealOutcome::regurgitated) continue;
        wait_for(question, meal.day, {rest, says::brought_up(meal.day, rest)}, findings);
        if (!(days_apart(meal.day, question.request.day) < units::in_days(window))) continue;
        if (times == 0 || std::pair(last.day, last.entry) < std::pair(meal.day, meal.entry))
            last = {meal.day, meal.entry};
        ++times;
    }
    if (times < 2) return;
    refuse(findings, tables, says::brings_up_again(times, window), says::vet_and_paper()).since = last;
}

/// What was in the prey is in the animal, though it came up again.
void check_prey(const Question& question, Findings& findings) {
    const auto& tables = question.with.tables;
    const auto window = tables.time("course_window").value;
    for (const auto& meal : question.animal.meals) {
        const bool is_in_it = meal.value.treated_prey && meal.value.outcome != MealOutcome::refused;
        if (!is_in_it || !(days_apart(meal.day, question.request.day) < units::in_days(window))) continue;
        refuse(findings, tables, says::ate_treated_prey(meal.day), says::vet_and_paper()).since =
            records::Dated{meal.day, meal.entry};
    }
}

}  // namespace

void check_meals(const Question& question, Findings& findings) {
    const records::Method method = question.request.method;
    if (exposes_animal(method)) check_prey(question, findings);
    if (!disturbs_meal(method)) return;
    for (const auto& [day, eaten] : eaten_by_day(question.animal))
        wait_for(question, day, rest_after(question, day, eaten), findings);
    check_brought_up(question, findings);
}

}  // namespace mitefall::safety
