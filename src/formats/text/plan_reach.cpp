#include "formats/text/plan_reach.h"

#include <fmt/format.h>

#include "formats/text/layout.h"
#include "formats/text/names.h"
#include "plan/questions.h"
#include "plan/reach.h"

namespace mitefall::formats {
namespace {

using records::Collection;

template <class Items, class Name>
std::string joined(const Items& items, Name name) {
    std::string text;
    for (const auto& item : items) text += (text.empty() ? "" : ", ") + name(item);
    return text;
}

}  // namespace

std::string reach_text(const plan::Schedule& schedule, const plan::Setting& setting) {
    const Collection& collection = setting.with.collection;
    const plan::Reach reach = plan::reach_of(schedule.assignment, setting);
    std::string text = "\n";
    if (!reach.whole_rooms.empty())
        text +=
            wrap(fmt::format("Every enclosure is in the plan of: {}.",
                             joined(reach.whole_rooms,
                                    [&](const records::RoomId& id) { return room_name(collection, id); })),
                 "", "  ");
    const auto outside_name = [&](const plan::Outside& one) {
        const std::string who =
            joined(one.animals, [&](const auto& id) { return animal_name(collection, id); });
        const auto& enclosure = collection.enclosures.at(one.enclosure);
        return (enclosure.name.empty() ? one.enclosure.text() : enclosure.name) +
               (who.empty() ? "" : " (" + who + ")");
    };
    if (!reach.outside.empty())
        text += wrap(fmt::format("At risk and not in the plan, nothing is done there: {}.",
                                 joined(reach.outside, outside_name)),
                     "", "  ");
    for (const plan::ShedQuestion& question : plan::open_questions(schedule.assignment, setting)) {
        if (question.would_change.empty()) continue;
        text += wrap(
            fmt::format("{} has been cloudy since {}. The plan changes with the answer: {}.",
                        animal_name(collection, question.animal), units::format_day_short(question.since),
                        joined(question.would_change,
                               [&](records::ShedState state) {
                                   return fmt::format("\"record shed {} {}\"", question.animal.text(),
                                                      records::to_text(state));
                               })),
            "", "  ");
    }
    return text;
}

}  // namespace mitefall::formats
