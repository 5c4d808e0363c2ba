#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {
namespace {

/// What gloves may touch without being changed: a room and a risk; above the least risk one enclosure.
struct Gloves {
    records::RoomId room;
    Danger danger;
    records::EnclosureId enclosure;
    friend bool operator==(const Gloves&, const Gloves&) = default;
};

bool is_shut_off(const Workday& day, const records::RoomId& room) {
    return day.turn_of_room(room) >= DangerMap::first_shut_off;
}

Gloves gloves_for(const Workday& day, const Task& task) {
    const bool is_risky =
        day.turn_of_room(task.room) > 0 &&
        (task.danger != Danger::healthy || day.danger().quarantined.contains(task.enclosure));
    return {task.room, task.danger, is_risky ? task.enclosure : records::EnclosureId()};
}

}  // namespace

/// Between risks, and after the last infested or quarantine room. Clothes, too, on the way back from such a
/// room to another: for a dish that could not wait its turn.
Tasks with_hygiene(const Workday& day, Tasks in_order) {
    Tasks all;
    int number = 0;
    const auto note = [&](statement::Statement what) {
        Task task;
        task.kind = TaskKind::hygiene;
        task.key = day.key(records::TaskPart::hygiene, std::to_string(++number));
        task.day = task.planned = day.today();
        task.what = std::move(what);
        all.push_back(std::move(task));
    };
    std::optional<Gloves> last;
    for (Task& task : in_order) {
        if (task.kind != TaskKind::mix) {
            const Gloves gloves = gloves_for(day, task);
            const bool goes_back = last && is_shut_off(day, last->room) && !is_shut_off(day, task.room);
            if (last && *last != gloves) note(goes_back ? work::change_clothes() : work::change_gloves());
            last = gloves;
        }
        all.push_back(std::move(task));
    }
    if (last && is_shut_off(day, last->room)) note(work::change_clothes());
    return all;
}

}  // namespace mitefall::worklist::rules
