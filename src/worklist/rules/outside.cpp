#include "worklist/rules/rules.h"

#include <algorithm>

#include "units/whole_days.h"

namespace mitefall::worklist::rules {
namespace {

using records::OutsideKind;

/// Somebody was there; with a visitor or a thing somebody or something came from there.
bool was_there(OutsideKind what) {
    return what == OutsideKind::show || what == OutsideKind::shop || what == OutsideKind::animal_held;
}

statement::Statement routine_of(OutsideKind what, units::Day on) {
    switch (what) {
        case OutsideKind::show:
        case OutsideKind::shop:
        case OutsideKind::animal_held:
            return work::after_outside(work::Term{"outside", records::to_text(what)}, on);
        case OutsideKind::visitor: return work::outside_visitor(on);
        case OutsideKind::borrowed_thing: return work::outside_thing(on);
        case OutsideKind::second_hand_wood: return work::outside_wood(on);
        case OutsideKind::live_plants: return work::outside_plants(on);
    }
    return {};
}

}  // namespace

Tasks after_outside(const Workday& day) {
    Tasks notes;
    int number = 0;
    const auto note = [&](statement::Statement what) {
        const bool is_told =
            std::any_of(notes.begin(), notes.end(), [&](const Task& task) { return task.what == what; });
        if (is_told) return;
        Task task;
        task.kind = TaskKind::hygiene;
        task.key = day.key(records::TaskPart::hygiene, "outside-" + std::to_string(++number));
        task.day = task.planned = day.today();
        task.what = std::move(what);
        notes.push_back(std::move(task));
    };
    const units::Days wait = units::at_least_days(day.tables().time("outside_wait").value);
    for (const auto& contact : day.collection().outside) {
        if (contact.day + wait < day.today()) continue;
        note(routine_of(contact.value.what, contact.day));
        note(work::outside_hands());
        if (was_there(contact.value.what)) note(work::outside_wait(contact.day + wait));
    }
    return notes;
}

}  // namespace mitefall::worklist::rules
