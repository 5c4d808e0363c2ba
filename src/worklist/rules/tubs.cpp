#include <algorithm>
#include <set>

#include "plan/emptied.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

using records::EnclosureId;
using records::Method;

/// Whose animals go into a clean tub today, or have gone.
std::set<EnclosureId> due_today(const Workday& day) {
    std::set<EnclosureId> due;
    for (const Workday::Due& one : day.due()) {
        const safety::PermittedTreatment& treatment = one.scheduled->treatment;
        if (treatment.method() == Method::fresh_tub &&
            day.state_of(one.scheduled->key()) != TaskState::skipped)
            due.insert(treatment.enclosure());
    }
    return due;
}

/// The day of the last clean tub, up to today.
std::optional<units::Day> last_left(const Workday& day, const records::Enclosure& enclosure,
                                    const std::set<EnclosureId>& due) {
    if (due.contains(enclosure.id)) return day.today();
    std::optional<units::Day> last;
    for (const auto& given : enclosure.treatments) {
        if (given.value.method == Method::fresh_tub && given.day <= day.today())
            last = std::max(last.value_or(given.day), given.day);
    }
    return last;
}

}  // namespace

Tasks old_tubs(const Workday& day) {
    Tasks tasks;
    const std::set<EnclosureId> due = due_today(day);
    const units::Temperature hot = day.tables().temperature("wash_temperature").value;
    for (const auto& [id, enclosure] : day.collection().enclosures) {
        if (plan::is_tub_for_wood(day.assignment().choices.emptied_wood, id)) continue;  // wood is not washed
        const auto left = last_left(day, enclosure, due);
        if (!left || day.today() - *left > units::Days(plan::longest_interval)) continue;
        Task task = day.task(records::to_text(*left, records::TaskPart::old_tub, id.text()),
                             TaskKind::old_tub, id, work::wash_old_tub(day.name_of(id), hot));
        if (*left < day.today() && task.state != TaskState::open) continue;
        task.planned = *left;
        tasks.push_back(std::move(task));
    }
    return tasks;
}

}  // namespace mitefall::worklist::rules
