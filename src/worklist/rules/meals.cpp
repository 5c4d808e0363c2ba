#include <algorithm>
#include <map>
#include <set>

#include "safety/meal.h"
#include "safety/methods.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

using records::AnimalId;
using units::Day;

using DaysOf = std::map<AnimalId, std::set<Day>>;

/// The days on which the course wets or moves an animal, from today on.
DaysOf disturbed_days(const Workday& day) {
    DaysOf days;
    for (const plan::Round& round : day.schedule().rounds) {
        for (const plan::ScheduledTreatment& one : round.treatments) {
            const safety::PermittedTreatment& treatment = one.treatment;
            if (!safety::disturbs_meal(treatment.method()) || day.state_of(one.key()) == TaskState::skipped)
                continue;
            for (const AnimalId& animal : treatment.animals()) days[animal].insert(treatment.day());
        }
    }
    for (const plan::DampSpell& spell : day.schedule().damp) {
        for (const records::Animal* const animal : day.inside(spell.enclosure)) {
            for (Day wet = std::max(spell.first, day.today()); wet <= spell.last; wet += units::one_day)
                days[animal->id].insert(wet);
        }
    }
    return days;
}

/// A gap too short for a meal between two treatments is none.
Day fed_from(const Workday& day, const records::Animal& animal, const std::set<Day>& disturbed) {
    Day from = day.today();
    if (const auto after = safety::fed_again_from(day.collection(), animal, day.tables()))
        from = std::max(from, *after);
    for (const Day treated : disturbed) {
        if (treated < from || safety::meal_bars(from, treated, day.tables()))
            from = std::max(from, safety::fed_again_after(treated, day.tables()));
    }
    return from;
}

}  // namespace

std::vector<Note> meals_to_hold(const Workday& day) {
    const DaysOf disturbed = disturbed_days(day);
    std::map<Day, std::vector<AnimalId>> held;
    for (const auto& [id, animal] : day.collection().animals) {
        const auto found = disturbed.find(id);
        const Day from = fed_from(day, animal, found == disturbed.end() ? std::set<Day>{} : found->second);
        if (from > day.today()) held[from].push_back(id);
    }
    std::vector<Note> notes;
    for (const auto& [from, animals] : held)
        notes.push_back({work::hold_meal(day.names_of(animals), from), animals});
    return notes;
}

}  // namespace mitefall::worklist::rules
