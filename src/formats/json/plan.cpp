#include <algorithm>

#include "formats/json/parts.h"
#include "plan/questions.h"
#include "plan/reach.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

/// The cautions of a plan, each once; treatments name theirs by position.
class CautionList {
  public:
    Json positions_of(const std::vector<safety::Caution>& cautions) {
        return list(cautions, [&](const safety::Caution& caution) { return position_of(caution); });
    }
    [[nodiscard]] Json json() const { return list(cautions_, caution_json); }

  private:
    std::size_t position_of(const safety::Caution& caution) {
        const auto found =
            std::find_if(cautions_.begin(), cautions_.end(), [&](const safety::Caution& known) {
                return known.what == caution.what && known.source == caution.source &&
                       known.tag == caution.tag;
            });
        if (found != cautions_.end())
            return static_cast<std::size_t>(std::distance(cautions_.begin(), found));
        cautions_.push_back(caution);
        return cautions_.size() - 1;
    }

    std::vector<safety::Caution> cautions_;
};

Json course_json(const plan::Course& course) {
    return {{"rounds", course.rounds},
            {"interval_days", course.interval_days},
            {"scope", plan::to_text(course.scope)},
            {"change_substrate", course.choices.change_substrate},
            {"keep_damp", course.choices.keep_damp},
            {"treat_rooms", course.treat_rooms},
            {"soak_animals", course.choices.soak_animals}};
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

Json treatment_json(const plan::ScheduledTreatment& scheduled, CautionList& cautions) {
    const safety::PermittedTreatment& treatment = scheduled.treatment;
    return {{"task", scheduled.key},
            {"room", name(treatment.room())},
            {"enclosure", name(treatment.enclosure())},
            {"animals", names(treatment.animals())},
            {"method", records::to_text(treatment.method())},
            {"strength_mg_per_l", strength_or_null(treatment.strength())},
            {"cautions", cautions.positions_of(treatment.cautions())}};
}

Json round_json(const plan::Round& round, CautionList& cautions) {
    return {
        {"planned", date(round.planned)},
        {"day", date(round.day)},
        {"own_date", round.own_date},
        {"treatments", list(round.treatments, [&](const auto& t) { return treatment_json(t, cautions); })}};
}

Json left_out_json(const plan::LeftOut& left_out) {
    return {{"day", date(left_out.day)},
            {"enclosure", name(left_out.enclosure)},
            {"animal", name(left_out.animal)},
            {"room", name(left_out.room)},
            {"method", records::to_text(left_out.method)},
            {"reason", words::say_with_remedy(left_out.why)},
            {"why", why_json(left_out.why)}};
}

Json refused_json(const plan::Refused& refused) {
    return {{"method", records::to_text(refused.method)},
            {"reasons",
             list(refused.reasons, [](const safety::Reason& why) { return words::say_with_remedy(why); })}};
}

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

Json scored_json(const plan::ScoredPlan& plan, const plan::Setting& setting) {
    const plan::Schedule& schedule = plan.schedule;
    CautionList cautions;
    Json json{{"refused", list(plan::refused_in(schedule), refused_json)}};
    json["text"] = plan::describe(plan.course, schedule.assignment.rounds, schedule.does);
    json["course"] = course_json(plan.course);
    json["clear"] = band_json(plan.clear);
    json["burden"] = burden_json(schedule.burden);
    json["enclosures"] = names(schedule.assignment.enclosures);
    json["rooms"] = names(schedule.assignment.rooms);
    const plan::Reach reach = plan::reach_of(schedule.assignment, setting);
    json["whole_rooms"] = names(reach.whole_rooms);
    json["outside"] = list(reach.outside, outside_json);
    json["questions"] = list(plan::open_questions(schedule.assignment, setting), question_json);
    json["rounds"] = list(schedule.rounds, [&](const auto& round) { return round_json(round, cautions); });
    json["left_out"] = list(schedule.left_out, left_out_json);
    json["cautions"] = cautions.json();
    return json;
}

Json frontier_json(const plan::FrontierCourse& one) {
    return {{"text", plan::describe(one.course, one.rounds, one.does)},
            {"course", course_json(one.course)},
            {"burden", burden_json(one.burden)},
            {"clear", band_json(one.clear)}};
}

Json rung_json(const plan::Rung& rung) { return {{"rounds", rung.rounds}, {"clear", band_json(rung.clear)}}; }

}  // namespace

Json plan_json(const plan::PlanChoice& choice, const plan::Setting& setting, const plan::Goal& goal) {
    Json json{{"today", date(setting.today)}};
    json["strength_mg_per_l"] = strength_or_null(setting.strength);
    json["target"] = number(goal.target);
    json["horizon_days"] = number(goal.horizon_days);
    json["meets_target"] = choice.meets_target;
    json["untreated"] = band_json(choice.untreated);
    json["recommended"] = scored_json(choice.recommended, setting);
    json["alternatives"] =
        list(choice.alternatives, [&](const plan::ScoredPlan& plan) { return scored_json(plan, setting); });
    json["frontier"] = list(choice.frontier, frontier_json);
    json["ladder"] = list(choice.ladder, rung_json);
    json["courses_tried"] = choice.courses_tried;
    json["class_count"] = choice.class_count;
    return json;
}

}  // namespace mitefall::formats
