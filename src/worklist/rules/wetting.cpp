#include "safety/wet_book.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

/// Today, and not by its task.
bool was_wetted_unasked(const Workday& day, const records::EnclosureId& id) {
    return safety::was_wetted_again(day.collection().enclosures.at(id), day.today()) &&
           day.state_of(day.key(records::TaskPart::redampen, id.text())) == TaskState::open;
}

}  // namespace

Tasks wettings_again(const Workday& day) {
    Tasks tasks;
    for (const records::EnclosureId& id : day.assignment().enclosures) {
        const safety::Permit* const permit = day.wetting_again(id);
        if (permit == nullptr || !*permit || was_wetted_unasked(day, id)) continue;
        Task task = day.task(day.key(records::TaskPart::redampen, id.text()), TaskKind::redampen, id,
                             work::wet_again(day.name_of(id)));
        task.amount =
            day.tables().spray("redampen_per_area").value * day.collection().enclosures.at(id).floor;
        set_strength(task, records::Method::spray_bedding, (*permit)->strength());
        task.cautions = (*permit)->cautions();
        tasks.push_back(std::move(task));
    }
    return tasks;
}

}  // namespace mitefall::worklist::rules
