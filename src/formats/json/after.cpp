#include "formats/json/after.h"

#include "formats/json/given.h"
#include "formats/json/parts.h"
#include "formats/json/statement.h"
#include "formats/json/sure.h"

namespace mitefall::formats {
namespace {

Json routine_json(const clearance::Noticed& noticed) {
    const base::Band& chance = noticed.chance;
    return {{"method", records::to_text(noticed.routine.method)},
            {"every_days", number(noticed.routine.every)},
            {"noticed",
             {{"mean", number(chance.mean)}, {"p10", number(chance.p10)}, {"p90", number(chance.p90)}}}};
}

}  // namespace

Json told_after_json(const clearance::Told& told) {
    Json json = told_json(told.what);
    json["tag"] = evidence::to_text(told.tag);
    json["source"] = text_or_null(told.source);
    json["by_mites"] = told.by_mites;
    return json;
}

Json keep_out_json(const clearance::KeepOutAnswer& answer) {
    return {{"today", date(answer.today)},
            {"within_days", answer.within_days},
            {"enclosures", answer.enclosures},
            {"enclosures_asked", answer.enclosures_asked},
            {"trap_routine_days", answer.trap_routine ? Json(*answer.trap_routine) : Json(nullptr)},
            {"routines", list(answer.routines, routine_json)},
            {"habits", list(answer.habits, told_after_json)}};
}

Json handover_json(const clearance::Handover& note, const records::Collection& names) {
    Json json = given_json(note.met, names);
    json["arrived"] = date(note.arrived);
    json["clean_checks"] = note.clean_checks;
    json["last_check"] = date(note.last_check);
    json["last_mites"] = date(note.last_mites);
    json["sure"] = note.sure ? sureness_json(*note.sure) : Json(nullptr);
    json["risk"] = list(note.risk, told_json);
    json["watch_for"] = list(note.watch_for, told_after_json);
    return json;
}

}  // namespace mitefall::formats
