#include "formats/json/plan_reach.h"

#include "formats/json/parts.h"
#include "plan/questions.h"
#include "plan/reach.h"

namespace mitefall::formats {
namespace {

Json outside_json(const plan::Outside& one) {
    return {{"enclosure", name(one.enclosure)},
            {"room", name(one.room)},
            {"animals", names(one.animals)},
            {"sighted", one.sighted}};
}

Json question_json(const plan::ShedQuestion& question) {
    return {{"about", "shed"},
            {"animal", name(question.animal)},
            {"enclosure", name(question.enclosure)},
            {"since", date(question.since)},
            {"would_change",
             list(question.would_change, [](records::ShedState state) { return records::to_text(state); })}};
}

}  // namespace

void put_reach(Json& json, const plan::Schedule& schedule, const plan::Setting& setting) {
    const plan::Reach reach = plan::reach_of(schedule.assignment, setting);
    json["whole_rooms"] = names(reach.whole_rooms);
    json["outside"] = list(reach.outside, outside_json);
    json["questions"] = list(plan::open_questions(schedule.assignment, setting), question_json);
}

}  // namespace mitefall::formats
