#include "safety/cautions.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {

std::optional<Task> mix(const Workday& day, const Tasks& all) {
    units::Volume volume;
    units::Strength strength;
    for (const Task& task : all) {
        if (!task.amount || task.state != TaskState::open) continue;
        volume += *task.amount;
        strength = task.strength;
    }
    std::string key = day.key(records::TaskPart::mix, "spray");
    const bool is_needed = volume > units::Volume{};
    if (!is_needed && day.state_of(key) == TaskState::open) return std::nullopt;
    Task task = day.task(std::move(key), TaskKind::mix, {}, work::mix_spray());
    if (is_needed) task.amount = volume * (1 + units::as_fraction(day.tables().part("spare").value));
    set_strength(task, records::Method::spray_bedding, strength);
    task.cautions = safety::cautions_for(records::Method::spray_bedding, day.tables());
    return task;
}

}  // namespace mitefall::worklist::rules
