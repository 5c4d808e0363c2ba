#include <iterator>
#include <utility>

#include "mixing/dose.h"
#include "plan/emptied.h"
#include "safety/rules.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

using records::AnimalId;
using records::Method;

std::optional<units::Volume> spray_for(const Workday& day, const safety::PermittedTreatment& treatment) {
    const auto& tables = day.tables();
    if (treatment.method() == Method::spray_bedding) {
        return tables.spray("spray_per_area").value *
               day.collection().enclosures.at(treatment.enclosure()).floor;
    }
    if (treatment.method() != Method::spray_animal) return std::nullopt;
    units::Volume total;
    for (const AnimalId& animal : treatment.animals()) {
        const auto mist = mixing::mist_volume(day.collection().animals.at(animal).weight->value, tables);
        if (mist) total += mist->likely;
    }
    return total;
}

/// The wood its animals are carried out of; empty for any other treatment.
records::EnclosureId emptied_by(const Workday& day, const safety::PermittedTreatment& treatment) {
    const auto& emptied = day.assignment().choices.emptied_wood;
    const bool is_moved =
        treatment.method() == Method::fresh_tub && plan::is_tub_for_wood(emptied, treatment.enclosure());
    return is_moved ? plan::wood_of(emptied, treatment.enclosure())->enclosure : records::EnclosureId();
}

Task task_of(const Workday& day, const Workday::Due& due) {
    const safety::PermittedTreatment& treatment = due.scheduled->treatment;
    const bool is_room = treatment.enclosure().empty();
    const std::string where =
        is_room ? day.collection().rooms.at(treatment.room()).name : day.name_of(treatment.enclosure());
    Task task =
        day.task(due.scheduled->key(), TaskKind::treat, treatment.enclosure(),
                 work::treat(safety::term(treatment.method()), day.names_of(treatment.animals()), where));
    task.from = emptied_by(day, treatment);
    if (!task.from.empty())
        task.what =
            work::into_treatment_tub(day.names_of(treatment.animals()), day.name_of(task.from), where);
    task.planned = due.round->planned;
    task.animals = treatment.animals();
    set_strength(task, treatment.method(), treatment.strength());
    task.cautions = treatment.cautions();
    task.treatment = treatment;
    if (is_room) day.put_in_room(task, treatment.room());
    task.amount = spray_for(day, treatment);
    return task;
}

}  // namespace

Tasks treatments(const Workday& day) {
    Tasks tasks;
    for (const Workday::Due& due : day.due()) {
        if (!day.is_held(*due.scheduled)) tasks.push_back(task_of(day, due));
    }
    return tasks;
}

std::vector<PassedOver> passed_over(const Workday& day) {
    std::vector<PassedOver> all;
    for (const plan::LeftOut& row : day.schedule().left_out) {
        if (row.day == day.today()) all.push_back({row.enclosure, row.animal, row.method, row.why});
    }
    for (const Workday::Due& due : day.due()) {
        const auto& treatment = due.scheduled->treatment;
        if (!day.is_held(*due.scheduled)) continue;
        all.push_back(
            {treatment.enclosure(), treatment.animals().empty() ? AnimalId() : treatment.animals().front(),
             treatment.method(), safety::reason_of(safety::says::dish_still_in(), day.tables(), {})});
    }
    for (const auto& enclosure : day.assignment().enclosures) {
        const safety::Permit* const again = day.wetting_again(enclosure);
        if (again != nullptr && !*again)
            all.push_back({enclosure, {}, Method::spray_bedding, again->error().reason});
    }
    std::vector<PassedOver> things = things_passed_over(day);
    std::move(things.begin(), things.end(), std::back_inserter(all));
    return all;
}

}  // namespace mitefall::worklist::rules
