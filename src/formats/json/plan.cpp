#include "formats/json/plan.h"

#include <cmath>

#include "formats/json/facts.h"
#include "formats/json/parts.h"
#include "formats/json/plan_reach.h"
#include "formats/json/plan_rounds.h"
#include "formats/json/statement.h"
#include "plan/effort.h"
#include "plan/explore.h"
#include "plan/reach.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

Json course_json(const plan::Course& course) {
    return {{"rounds", course.rounds},
            {"interval_days", course.interval_days},
            {"scope", plan::to_text(course.scope)},
            {"change_substrate", course.choices.change_substrate},
            {"keep_damp", course.choices.keep_damp},
            {"treat_rooms", course.treat_rooms},
            {"soak_animals", course.choices.soak_animals},
            {"fresh_tubs", names(course.choices.fresh_tubs)},
            {"emptied_wood", list(course.choices.emptied_wood, emptied_wood_json)},
            {"clear_heads", course.choices.clear_heads},
            {"without_spray", course.choices.without_spray}};
}

Json burden_json(const plan::Burden& burden) {
    return {{"most_on_one_animal", burden.most_on_one_animal},
            {"on_animal", burden.on_animal},
            {"damp_days", burden.damp_days},
            {"handlings", burden.handlings},
            {"without_water_days", burden.days_without_water},
            {"tasks", burden.tasks},
            {"spray_ml", millilitres_json(burden.spray)}};
}

/// Whole minutes: they rest on assumptions.
Json effort_json(const plan::Effort& effort, const evidence::Tables& tables) {
    const auto minutes = [](units::TimeSpan span) { return std::lround(units::in_days(span) * 24 * 60); };
    return {{"days", effort.days},
            {"longest_minutes", minutes(effort.longest)},
            {"all_minutes", minutes(effort.all)},
            {"one_by_one_minutes", minutes(effort.one_by_one)},
            {"soak_minutes", minutes(tables.time("effort_soak").value)},
            {"wipe_minutes", minutes(tables.time("effort_wipe").value)},
            {"other_minutes", minutes(tables.time("effort_look_over").value)}};
}

Json refused_json(const plan::Refused& refused) {
    return {{"method", records::to_text(refused.method)},
            {"reasons",
             list(refused.reasons, [](const safety::Reason& why) { return words::say_with_remedy(why); })}};
}

Json scored_json(const plan::ScoredPlan& plan, const plan::Setting& setting) {
    const plan::Schedule& schedule = plan.schedule;
    Json json = told_json(plan::tell(plan.course, schedule.assignment.rounds, schedule.does));
    json["refused"] = list(plan::refused_in(schedule), refused_json);
    json["course"] = course_json(plan.course);
    json["clear"] = band_json(plan.clear);
    json["burden"] = burden_json(schedule.burden);
    json["effort"] = effort_json(plan::effort_of(schedule, setting.with.tables), setting.with.tables);
    json["enclosures"] = names(schedule.assignment.enclosures);
    json["rooms"] = names(schedule.assignment.rooms);
    put_reach(json, schedule, setting);
    put_rounds(json, schedule);
    return json;
}

Json frontier_json(const plan::FrontierCourse& one) {
    Json json = told_json(plan::tell(one.course, one.rounds, one.does));
    json["course"] = course_json(one.course);
    json["burden"] = burden_json(one.burden);
    json["clear"] = band_json(one.clear);
    return json;
}

Json rounding_json(const plan::Rounding& rounding) {
    return {{"on_record", rounding.climates},
            {"told_apart", rounding.told_apart},
            {"difference", number(rounding.difference)},
            {"draws", plan::checked_draws}};
}

Json rung_json(const plan::Rung& rung) { return {{"rounds", rung.rounds}, {"clear", band_json(rung.clear)}}; }

}  // namespace

Json plan_json(const plan::PlanChoice& choice, const plan::Setting& setting, const plan::Goal& goal,
               const std::vector<plan::Rung>& rungs) {
    Json json{{"today", date(setting.today)}};
    json["strength_mg_per_l"] = strength_or_null(setting.strength);
    json["target"] = number(goal.target);
    json["horizon_days"] = number(goal.horizon_days);
    json["spare_tubs"] = setting.limits.spare_tubs;
    json["meets_target"] = choice.meets_target;
    json["untreated"] = band_json(choice.untreated);
    json["recommended"] = scored_json(choice.recommended, setting);
    json["alternatives"] =
        list(choice.alternatives, [&](const plan::ScoredPlan& plan) { return scored_json(plan, setting); });
    json["frontier"] = list(choice.frontier, frontier_json);
    json["ladder"] = list(rungs, rung_json);
    json["courses_tried"] = choice.courses_tried;
    json["class_count"] = choice.class_count;
    if (choice.rests_on_few) json["rests_on_few"] = true;
    if (choice.rounding) json["climates"] = rounding_json(*choice.rounding);
    return json;
}

Json best_so_far_json(const plan::FrontierCourse& best) {
    Json json = frontier_json(best);
    json["draws"] = plan::draws_of_a_rough_look;
    return json;
}

Json each_round_json(const std::vector<plan::Rung>& rungs) { return {{"ladder", list(rungs, rung_json)}}; }

}  // namespace mitefall::formats
