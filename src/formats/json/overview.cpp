#include "formats/json/overview.h"

#include "formats/json/late.h"
#include "formats/json/parts.h"
#include "formats/json/statement.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

Json enclosure_glance_json(const worklist::EnclosureAtAGlance& glance) {
    return {{"enclosure", name(glance.enclosure)},
            {"name", glance.name},
            {"animals", glance.animals},
            {"danger", worklist::to_text(glance.danger)},
            {"exposure", glance.exposure ? number(*glance.exposure) : Json(nullptr)},
            {"exposed_by", text_or_null(words::say(glance.exposed_by))},
            {"due", glance.due},
            {"done", glance.done},
            {"clear", nullptr},
            {"quarantine", glance.quarantine},
            {"water_out_since", date(glance.water_out_since)},
            {"last_checked", date(glance.last_checked)}};
}

Json room_glance_json(const worklist::RoomAtAGlance& room) {
    return {{"room", name(room.room)},
            {"name", room.name},
            {"enclosures", list(room.enclosures, enclosure_glance_json)}};
}

Json ahead_json(const worklist::WorkAhead& work) {
    return {{"kind", worklist::to_text(work.kind)},
            {"method", work.method ? Json(records::to_text(*work.method)) : Json(nullptr)},
            {"tasks", work.tasks}};
}

Json plan_json(const records::DatedValue<records::PlanAdopted>& plan, int rounds_over) {
    Json json = told_json(worklist::tell(plan.value));
    json["adopted"] = date(plan.day);
    json["rounds"] = dates(plan.value.rounds);
    json["rounds_over"] = rounds_over;
    return json;
}

}  // namespace

Json overview_json(const worklist::Overview& overview, const std::vector<worklist::WorkAhead>& next) {
    return {{"day", date(overview.day)},
            {"rooms", list(overview.rooms, room_glance_json)},
            {"plan", overview.plan ? plan_json(*overview.plan, overview.rounds_over) : Json(nullptr)},
            {"clear", nullptr},
            {"outlook", nullptr},
            {"late", late_json(overview.late)},
            {"due", overview.due},
            {"done", overview.done},
            {"next_day", date(overview.next_day)},
            {"next", list(next, ahead_json)},
            {"last_sighting", date(overview.last_sighting)}};
}

}  // namespace mitefall::formats
