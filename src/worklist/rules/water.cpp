#include <fmt/format.h>

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
        tasks.push_back(day.task(day.key("water-out", id.text()), TaskKind::water_out, id,
                                 fmt::format("Take the water dish out of {}", day.name_of(id))));
    }
    return tasks;
}

namespace {

std::string back_text(const std::string& place, bool is_due) {
    return is_due ? fmt::format(
                        "Put the water dish back into {}, fresh water, dry paper where it is still wet; "
                        "look for loose skin folds",
                        place)
                  : fmt::format(
                        "Put the water dish back into {} once its paper feels dry, fresh water; look "
                        "for loose skin folds",
                        place);
}

std::string drink_text(const Workday& day, const EnclosureId& id, const std::vector<AnimalId>& animals) {
    const bool by_hand = std::none_of(animals.begin(), animals.end(), [&](const AnimalId& animal) {
        return safety::may_be_venomous(day.setting().with.survey.taxa.at(animal));
    });
    return fmt::format("Offer a drink outside {} to {}, {}: shallow lukewarm water, watched; back when dry",
                       day.name_of(id), day.names_of(animals),
                       by_hand ? "in a clean box" : "in its locked shift box");
}

}  // namespace

Tasks dishes_back(const Workday& day) {
    Tasks tasks;
    for (const auto& [id, enclosure] : day.collection().enclosures) {
        if (!day.puts_dish_back(enclosure)) continue;
        const safety::Dish dish = day.dish_of(enclosure);
        const bool is_due = safety::is_due(dish, day.today(), day.limits());
        Task& task = tasks.emplace_back(day.task(day.key("water-back", id.text()), TaskKind::water_back, id,
                                                 back_text(day.name_of(id), is_due)));
        task.overdue = safety::is_overdue(dish, day.today(), day.limits());
        if (task.overdue) task.planned = safety::back_by(dish, day.limits()).value_or(task.planned);
    }
    return tasks;
}

Tasks drinks(const Workday& day) {
    Tasks tasks;
    for (const auto& [id, animals] : day.setting().with.survey.inside) {
        const auto enclosure = day.collection().enclosures.find(id);
        if (enclosure == day.collection().enclosures.end() || !day.is_without_dish(enclosure->second))
            continue;
        tasks.push_back(
            day.task(day.key("drink", id.text()), TaskKind::drink, id, drink_text(day, id, animals)));
        tasks.back().animals = animals;
    }
    return tasks;
}

}  // namespace mitefall::worklist::rules
