#include "formats/json/adopted.h"

#include <map>

#include "formats/adopted.h"
#include "formats/json/facts.h"
#include "formats/json/parts.h"
#include "formats/json/statement.h"
#include "safety/cautions.h"
#include "safety/methods.h"
#include "worklist/overview.h"

namespace mitefall::formats {
namespace {

using records::CourseTreatment;
using records::Method;
using records::PlanAdopted;

Json exception_json(const CourseException& one) {
    return {{"animal", name(one.animal)},
            {"enclosure", name(one.enclosure)},
            {"text", describe(one)},
            {"methods", list(one.given, [](Method method) { return records::to_text(method); })},
            {"bedding", one.bedding},
            {"reason", one.reason}};
}

/// The treatments by day as a plan lists them; `cautions` are filled by method.
Json rounds_json(const PlanAdopted& course, const evidence::Tables& tables, Json& cautions) {
    std::map<Method, Json> positions;
    Json rounds = Json::array();
    for (const CourseTreatment& treatment : course.terms.treatments) {
        const auto [known, is_new] = positions.try_emplace(treatment.method, Json::array());
        if (is_new) {
            for (const auto& caution : safety::cautions_for(treatment.method, tables)) {
                known->second.push_back(cautions.size());
                cautions.push_back(caution_json(caution));
            }
        }
        const Json day = date(treatment.day);
        if (rounds.empty() || rounds.back()["day"] != day ||
            rounds.back()["planned"] != date(treatment.planned)) {
            rounds.push_back({{"planned", date(treatment.planned)},
                              {"day", day},
                              {"own_date", treatment.day != treatment.planned},
                              {"treatments", Json::array()}});
        }
        Json row = course_treatment_json(treatment);
        row.erase("planned");
        row.erase("day");
        const bool sprayed = safety::is_ivermectin_spray(treatment.method);
        row["strength_mg_per_l"] = sprayed ? strength_or_null(course.strength) : Json();
        row["cautions"] = known->second;
        rounds.back()["treatments"].push_back(std::move(row));
    }
    return rounds;
}

}  // namespace

Json adopted_json(const records::DatedValue<PlanAdopted>& plan, const evidence::Tables& tables) {
    const PlanAdopted& course = plan.value;
    const bool known = course.terms.are_known();
    Json cautions = Json::array();
    Json json = told_json(worklist::tell(course));
    json["adopted"] = date(plan.day);
    json["said"] = said_of_adopted;
    json["days"] = dates(course.rounds);
    json["strength_mg_per_l"] = strength_or_null(course.strength);
    json["scope"] = text_or_null(course.terms.scope);
    json["change_substrate"] = course.choices.change_substrate;
    json["keep_damp"] = course.choices.keep_damp;
    json["soak_animals"] = course.choices.soak_animals;
    json["fresh_tubs"] = names(course.choices.fresh_tubs);
    json["emptied_wood"] = list(course.choices.emptied_wood, emptied_wood_json);
    json["clear_heads"] = course.choices.clear_heads;
    json["without_spray"] = course.choices.without_spray;
    json["enclosures"] = names(course.enclosures);
    json["rooms"] = names(course.rooms);
    json["rounds"] = known ? rounds_json(course, tables, cautions) : Json();
    json["exceptions"] = known ? list(exceptions_of(course), exception_json) : Json();
    json["left_out"] = known ? list(course.terms.left_out, course_refusal_json) : Json();
    json["cautions"] = std::move(cautions);
    return json;
}

}  // namespace mitefall::formats
