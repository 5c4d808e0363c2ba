#include "exposure/telling.h"

#include <algorithm>

#include "base/contract.h"
#include "exposure/paths.h"

namespace mitefall::exposure {
namespace {

using statement::Names;

StepKind kind_of(ContactKind kind, Side side) {
    switch (kind) {
        case ContactKind::moved: return side == Side::back ? StepKind::moved_from : StepKind::moved_to;
        case ContactKind::handled: return StepKind::handled_after;
        case ContactKind::bag: return StepKind::shared_bag;
        case ContactKind::item: return StepKind::shared_item;
    }
    throw base::ContractViolation("contract broken: no such contact");
}

const std::string& name_or_id(const std::string& name, const std::string& id) {
    return name.empty() ? id : name;
}

}  // namespace

Names Telling::call(std::size_t enclosure) const {
    const records::Enclosure& place = *places_.enclosures[enclosure];
    return {{place.id.text(), name_or_id(place.name, place.id.text())}};
}

Names Telling::call(const records::AnimalId& animal) const {
    const auto found = names_.find(animal);
    return {
        {animal.text(), found == names_.end() ? animal.text() : name_or_id(found->second, animal.text())}};
}

std::vector<Step> Telling::tell_path(const Paths& paths, std::ptrdiff_t label) const {
    std::vector<Step> path;
    for (const std::ptrdiff_t at : paths.way_to(label)) {
        const Label& here = paths.labels[static_cast<std::size_t>(at)];
        if (here.turn) continue;
        path.push_back(here.parent < 0
                           ? tell_start(here)
                           : tell_link(here, paths.labels[static_cast<std::size_t>(here.parent)]));
    }
    return path;
}

Step Telling::tell_sighting(const Label& label) const {
    Step step;
    step.to = places_.enclosures[label.enclosure]->id;
    step.to_room = places_.enclosures[label.enclosure]->room;
    step.day = to_;
    step.what = tells::mites_seen_by(call(label.enclosure), to_);
    return step;
}

Step Telling::tell_outside(const Label& label) const {
    const FromOutside& contact = list_.outside[static_cast<std::size_t>(label.outside)];
    Step step;
    step.kind = StepKind::outside;
    step.to = places_.enclosures[label.enclosure]->id;
    step.to_room = places_.enclosures[label.enclosure]->room;
    step.day = day(contact.day);
    step.chance = label.chance;
    step.what = tells::brought_from_outside({"outside", records::to_text(contact.fact->what)},
                                            call(label.enclosure), step.day);
    return step;
}

Step Telling::tell_link(const Label& label, const Label& parent) const {
    const bool back = label.side == Side::back;
    const records::Enclosure& giver = *places_.enclosures[back ? label.enclosure : parent.enclosure];
    const records::Enclosure& receiver = *places_.enclosures[back ? parent.enclosure : label.enclosure];
    Step step;
    step.from = giver.id;
    step.to = receiver.id;
    step.from_room = giver.room;
    step.to_room = receiver.room;
    step.chance = label.link;
    if (label.contact >= 0) {
        tell_contact(step, label);
    } else {
        tell_walk(step, label, parent);
    }
    return step;
}

void Telling::tell_contact(Step& step, const Label& label) const {
    const Contact& contact = list_.contacts[static_cast<std::size_t>(label.contact)];
    step.kind = kind_of(contact.kind, label.side);
    step.day = day(contact.day);
    if (contact.giver != nullptr) step.animal = label.side == Side::back ? *contact.giver : *contact.receiver;
    switch (contact.kind) {
        case ContactKind::moved:
            step.what = tells::was_moved(call(step.animal), call(contact.from), call(contact.to), step.day);
            break;
        case ContactKind::handled:
            step.what = tells::handled_after(call(*contact.receiver), call(*contact.giver), step.day);
            break;
        case ContactKind::bag:
            step.what = tells::shared_a_bag(call(*contact.receiver), call(*contact.giver), step.day);
            break;
        case ContactKind::item:
            step.what = tells::used_in_both(*contact.item, call(contact.from), call(contact.to), step.day);
            break;
    }
}

void Telling::tell_walk(Step& step, const Label& label, const Label& parent) const {
    const bool back = label.side == Side::back;
    const std::size_t giver = back ? label.enclosure : parent.enclosure;
    const std::size_t receiver = back ? parent.enclosure : label.enclosure;
    const bool same = places_.room_of[giver] == places_.room_of[receiver];
    const int first =
        std::max({std::min(label.day, parent.day), places_.begin[giver], places_.begin[receiver]});
    step.kind = same ? StepKind::same_room : StepKind::adjoining_room;
    step.day = day(std::max(label.day, parent.day));
    const auto& walked = same ? tells::walked_within : tells::walked_between;
    step.what = walked(call(giver), call(receiver), day(first), step.day);
}

statement::Statement Telling::tell_arrival(const Arrived& arrived) const {
    return tells::came_from_outside(call(*arrived.animal), call(arrived.enclosure), day(arrived.day));
}

statement::Statement Telling::tell_nothing() const { return tells::no_contact(from_, to_); }

statement::Statement tell_all(const std::vector<Step>& path) {
    std::vector<statement::Statement> steps;
    steps.reserve(path.size());
    for (const Step& step : path) steps.push_back(step.what);
    return tells::path(std::move(steps));
}

}  // namespace mitefall::exposure
