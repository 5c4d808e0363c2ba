#include <algorithm>

#include "safety/handling.h"
#include "worklist/rules/rules.h"

// The dish out, the dish back, and a drink meanwhile.
namespace mitefall::worklist::rules {

using records::AnimalId;
using records::EnclosureId;

Tasks dishes_out(const Workday& day) {
    Tasks tasks;
    for (const auto& [id, enclosure] : day.collection().enclosures) {
        if (!day.takes_dish_out(enclosure)) continue;
        tasks.push_back(day.task(day.key(records::TaskPart::water_out, id.text()), TaskKind::water_out, id,
                                 work::dish_out(day.name_of(id))));
    }
    return tasks;
}

namespace {

std::vector<AnimalId> names_of(const safety::Inside& inside) {
    std::vector<AnimalId> names;
    for (const records::Animal* const animal : inside) names.push_back(animal->id);
    return names;
}

statement::Statement drink_for(const Workday& day, const EnclosureId& id,
                               const std::vector<AnimalId>& animals) {
    const bool by_hand = std::none_of(animals.begin(), animals.end(), [&](const AnimalId& animal) {
        return safety::may_be_venomous(day.setting().with.survey.taxa.at(animal));
    });
    const auto& drink = by_hand ? work::drink_in_box : work::drink_in_shift_box;
    return drink(day.name_of(id), day.names_of(animals));
}

}  // namespace

Tasks dishes_back(const Workday& day) {
    Tasks tasks;
    for (const auto& [id, enclosure] : day.collection().enclosures) {
        if (!day.puts_dish_back(enclosure)) continue;
        const safety::Dish dish = day.dish_of(enclosure);
        const auto& back = safety::is_due(dish, day.today(), day.limits()) ? work::dish_back_today
                                                                           : work::dish_back_once_dry;
        Task& task = tasks.emplace_back(day.task(day.key(records::TaskPart::water_back, id.text()),
                                                 TaskKind::water_back, id, back(day.name_of(id))));
        task.overdue = safety::is_overdue(dish, day.today(), day.limits());
        if (task.overdue) task.planned = safety::back_by(dish, day.limits()).value_or(task.planned);
    }
    return tasks;
}

Tasks drinks(const Workday& day) {
    Tasks tasks;
    for (const auto& [id, enclosure] : day.collection().enclosures) {
        const std::vector<AnimalId> animals = names_of(day.inside(id));
        if (animals.empty() || !day.is_without_dish(enclosure)) continue;
        tasks.push_back(day.task(day.key(records::TaskPart::drink, id.text()), TaskKind::drink, id,
                                 drink_for(day, id, animals)));
        tasks.back().animals = animals;
    }
    return tasks;
}

}  // namespace mitefall::worklist::rules
