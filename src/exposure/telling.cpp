#include "exposure/telling.h"

#include <fmt/format.h>

#include "base/contract.h"

namespace mitefall::exposure {
namespace {

using units::show_day;

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

std::string_view to_text(StepKind kind) {
    switch (kind) {
        case StepKind::sighted: return "sighted";
        case StepKind::moved_from: return "moved-from";
        case StepKind::moved_to: return "moved-to";
        case StepKind::handled_after: return "handled-after";
        case StepKind::shared_bag: return "shared-bag";
        case StepKind::shared_item: return "shared-item";
        case StepKind::same_room: return "same-room";
        case StepKind::adjoining_room: return "adjoining-room";
    }
    throw base::ContractViolation("contract broken: no such step");
}

std::string join_texts(const std::vector<Step>& path) {
    std::string text;
    for (const Step& step : path) text += (text.empty() ? "" : "; ") + step.text;
    return text;
}

std::string Telling::call(std::size_t enclosure) const {
    const records::Enclosure& place = *places_.enclosures[enclosure];
    return name_or_id(place.name, place.id.text());
}

std::string Telling::call(const records::AnimalId& animal) const {
    const auto found = names_.find(animal);
    return found == names_.end() ? animal.text() : name_or_id(found->second, animal.text());
}

std::vector<Step> Telling::tell_path(const Paths& paths, std::ptrdiff_t label) const {
    std::vector<Step> path;
    for (const std::ptrdiff_t at : paths.way_to(label)) {
        const Label& here = paths.labels[static_cast<std::size_t>(at)];
        if (here.turn) continue;
        path.push_back(here.parent < 0
                           ? tell_sighting(here)
                           : tell_link(here, paths.labels[static_cast<std::size_t>(here.parent)]));
    }
    return path;
}

Step Telling::tell_sighting(const Label& label) const {
    Step step;
    step.to = places_.enclosures[label.enclosure]->id;
    step.to_room = places_.enclosures[label.enclosure]->room;
    step.day = to_;
    step.text = fmt::format("Mites were seen in {} by {}", call(label.enclosure), show_day(to_));
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
    const std::string date = show_day(day(contact.day));
    step.kind = kind_of(contact.kind, label.side);
    step.day = day(contact.day);
    if (contact.giver != nullptr) step.animal = label.side == Side::back ? *contact.giver : *contact.receiver;
    switch (contact.kind) {
        case ContactKind::moved:
            step.text = fmt::format("{} was moved from {} to {} on {}", call(step.animal), call(contact.from),
                                    call(contact.to), date);
            break;
        case ContactKind::handled:
            step.text = fmt::format("{} was handled after {} on {}", call(*contact.receiver),
                                    call(*contact.giver), date);
            break;
        case ContactKind::bag:
            step.text = fmt::format("{} and {} shared a bag on {}", call(*contact.receiver),
                                    call(*contact.giver), date);
            break;
        case ContactKind::item:
            step.text = fmt::format("{} used in {} and then in {} on {}", *contact.item, call(contact.from),
                                    call(contact.to), date);
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
    step.text =
        fmt::format("mites may have walked from {} to {}, in {} room, between {} and {}", call(giver),
                    call(receiver), same ? "the same" : "another", show_day(day(first)), show_day(step.day));
}

std::string Telling::tell_arrival(const Arrived& arrived) const {
    return fmt::format("{} came from outside into {} on {}", call(*arrived.animal), call(arrived.enclosure),
                       show_day(day(arrived.day)));
}

std::string Telling::tell_nothing() const {
    return fmt::format("no contact on record from {} to {}; what was not written down is not known",
                       show_day(from_), show_day(to_));
}

}  // namespace mitefall::exposure
