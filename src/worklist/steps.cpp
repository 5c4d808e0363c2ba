#include "worklist/steps.h"

#include <iterator>
#include <utility>

#include "safety/handling.h"

namespace mitefall::worklist {
namespace {

using records::Enclosure;
using records::Method;
using records::ThingKind;
using Steps = std::vector<statement::Statement>;

/// Up to this floor an enclosure is carried to the water, above it the water comes to it; our assumption.
constexpr units::Area carried_floor = units::square_centimetres(6000);

units::Temperature hot(const Workday& day) { return day.tables().temperature("wash_temperature").value; }

void add(Steps more, Steps& steps) { std::move(more.begin(), more.end(), std::back_inserter(steps)); }

/// Last, and no substitute for anything above it.
Steps drying() { return {work::step_dry(), work::step_disinfect()}; }

Steps washing(const Enclosure& enclosure, const Workday& day) {
    if (enclosure.material == records::Material::porous) {
        const auto heat = day.tables().temperature("heat_objects_temperature").value;
        return {work::step_vacuum_wood(), work::step_wipe_wood(), work::step_wood_keeps(heat)};
    }
    if (enclosure.floor <= carried_floor) return {work::step_brush_tub(), work::step_wash_tub(hot(day))};
    return {work::step_brush_tub(), work::step_wash_in_place(hot(day))};
}

/// Whoever lives in it is out first, and back last.
Steps cleaning(const Enclosure& enclosure, const Workday& day) {
    const bool is_lived_in = !day.inside(enclosure.id).empty();
    Steps steps;
    if (is_lived_in)
        steps.push_back(safety::is_venomous_inside(day.setting().with, enclosure.id)
                            ? work::step_shift_box()
                            : work::step_animal_out());
    steps.push_back(work::step_bag());
    if (day.has_things(enclosure.id)) steps.push_back(work::step_things());
    add(washing(enclosure, day), steps);
    add(drying(), steps);
    steps.push_back(work::step_paper());
    if (is_lived_in) steps.push_back(work::step_heat());
    steps.push_back(work::step_hands());
    return steps;
}

Steps washing_old_tub(const Enclosure& enclosure, const Workday& day) {
    Steps steps = washing(enclosure, day);
    add(drying(), steps);
    return steps;
}

Steps treating_room(const Workday& day) {
    const auto airing = day.tables().time("pyrethroid_airing").value;
    return {work::step_room_empty(),        work::step_rack_out(),  work::step_room_vacuum(),
            work::step_room_wash(hot(day)), work::step_disinfect(), work::step_room_treat(),
            work::step_room_air(airing)};
}

Steps cleaning_thing(ThingKind what, const Workday& day) {
    Steps steps;
    if (what == ThingKind::rack) steps.push_back(work::step_rack_out());
    if (what != ThingKind::rack && what != ThingKind::floor) return steps;
    steps.push_back(work::step_room_vacuum());
    steps.push_back(work::step_room_wash(hot(day)));
    add(drying(), steps);
    return steps;
}

Steps of_treatment(const Task& task, const Workday& day) {
    if (task.treatment->method() == Method::treat_room) return treating_room(day);
    if (task.treatment->method() != Method::change_substrate) return {};
    return cleaning(day.collection().enclosures.at(task.enclosure), day);
}

}  // namespace

Steps steps_of(const Task& task, const Workday& day) {
    if (task.thing) {
        const bool is_washed = task.thing->method == records::ThingMethod::wash_hot;
        return is_washed ? cleaning_thing(day.collection().things.at(task.thing->id).what, day) : Steps{};
    }
    if (task.kind == TaskKind::old_tub && !task.enclosure.empty())
        return washing_old_tub(day.collection().enclosures.at(task.enclosure), day);
    return task.kind == TaskKind::treat && task.treatment ? of_treatment(task, day) : Steps{};
}

}  // namespace mitefall::worklist
