#include "plan/burden.h"

#include <algorithm>
#include <utility>

#include "mixing/dose.h"
#include "safety/methods.h"

namespace mitefall::plan {

using records::Method;

BurdenCounter::BurdenCounter(const Setting& setting, const Roster& roster)
    : tables_(setting.with.tables),
      roster_(roster),
      sprayed_(tables_.spray("spray_per_area").value),
      redampened_(tables_.spray("redampen_per_area").value),
      animals_(roster.animal_count()) {}

void BurdenCounter::count(const Schedule& schedule, Doings& does) {
    std::size_t number = 0;
    for (const Round& round : schedule.rounds) {
        ++number;
        for (const ScheduledTreatment& scheduled : round.treatments) {
            const safety::PermittedTreatment& treatment = scheduled.treatment;
            note(treatment.method(), treatment.enclosure(), schedule.assignment.choices, does);
            count(treatment, number);
        }
    }
    for (const Tally& animal : animals_)
        burden_.most_on_one_animal = std::max(burden_.most_on_one_animal, animal.sprayed);
}

void BurdenCounter::count(const safety::PermittedTreatment& treatment, std::size_t round) {
    ++burden_.tasks;
    const records::MethodRow& row = records::row_of(treatment.method());
    if (row.target == records::Target::animal) {
        Tally& animal = animals_[index_of(roster_.number_of(treatment.animals().front()))];
        // Its head is gone over while it is out anyway.
        if (safety::is_by_hand(row.method) && std::exchange(animal.in_hand, round) != round)
            ++burden_.handlings;
        if (safety::is_on_animal_acaricide(row.method)) {
            ++burden_.on_animal;
            ++animal.sprayed;
        }
    }
    if (row.method == Method::soak) ++burden_.soaks;
    if (row.method == Method::fresh_tub) ++burden_.tasks;  // the old one is washed
    if (row.paper == records::Paper::sprayed)
        burden_.damp_days += static_cast<int>(treatment.animals().size());
    if (row.is_spray) burden_.spray += spray_for(treatment);
}

units::Volume BurdenCounter::spray_for(const safety::PermittedTreatment& treatment) {
    if (records::row_of(treatment.method()).target == records::Target::animal)
        return mist_for(roster_.number_of(treatment.animals().front()));
    return sprayed_ * floor_of(treatment.enclosure());
}

units::Volume BurdenCounter::mist_for(AnimalNumber animal) {
    std::optional<units::Volume>& known = animals_[index_of(animal)].mist;
    if (known) return *known;
    known = units::Volume{};
    const auto& weight = roster_.animal(animal).weight;
    if (!weight) return *known;
    if (const auto mist = mixing::mist_volume(weight->value, tables_)) known = mist->likely;
    return *known;
}

void BurdenCounter::count_dish(bool is_lived_in, int days) {
    burden_.days_without_water += days;
    if (is_lived_in) burden_.tasks += days;
}

void BurdenCounter::count_upkeep(const DampSpell& spell, std::size_t animals) {
    const auto days = static_cast<int>((spell.last - spell.first).count()) + 1;
    burden_.tasks += days;
    burden_.damp_days += days * static_cast<int>(animals);
    burden_.spray += redampened_ * floor_of(spell.enclosure) * days;
}

}  // namespace mitefall::plan
