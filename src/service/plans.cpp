#include "service/plans.h"

#include <utility>

#include "service/adopted.h"

namespace mitefall::service {
namespace {

/// The same with the enclosures of each room that is named.
Result<plan::Limits> read_limits(plan::Limits limits, const records::Collection& today) {
    for (const records::EnclosureId& id : std::exchange(limits.only, {})) {
        const auto room = today.enclosures_in(records::RoomId(id.text()));
        if (today.enclosures.contains(id))
            limits.only.insert(id);
        else if (room.empty())
            return fail({base::ErrorKind::not_found,
                         "there is no enclosure of that name",
                         id.text(),
                         "an enclosure, or a room with enclosures",
                         "look it up among the enclosures",
                         {}});
        for (const records::Enclosure* const one : room) {
            if (!today.enclosures.contains(id)) limits.only.insert(one->id);
        }
    }
    if (limits.free_days.none())
        return fail(
            base::invalid("no day of the week is free", {}, "at least one", "name the days you have"));
    return limits;
}

/// Names the option that helps, for people and for pages.
base::Error without_a_find(base::Error error) {
    error.where = "--prevent";
    error.remedy +=
        "; a plan without a find, for a new animal or after contact with the outside: plan --prevent";
    return error;
}

Result<plan::Setting> setting_of(const Situation& situation, const PlanOptions& options) {
    const auto strength = options.strength.value_or(usual_strength(situation.knowledge()));
    if (options.prevent) return situation.setting_to_prevent(strength);
    auto setting = situation.setting(strength);
    const bool is_nothing_seen = !setting && setting.error().kind == ErrorKind::not_found;
    if (is_nothing_seen && !situation.collection().animals.empty())
        return fail(without_a_find(setting.error()));
    return setting;
}

}  // namespace

Result<plan::Setting> setting_for(const Situation& situation, const PlanOptions& options) {
    const auto limits = read_limits(options.limits, situation.collection());
    if (!limits) return fail(limits.error());
    auto setting = setting_of(situation, options);
    if (!setting) return setting;
    setting->limits = *limits;
    return limits->spare_tubs > 0 ? situation.with_wood(*setting) : *setting;
}

plan::Goal goal_of(const Situation& situation, const PlanOptions& options) {
    plan::Goal goal{options.target, options.horizon_days, options.prefer, options.progress};
    goal.best_so_far = options.best_so_far;
    if (options.prevent)
        goal.worth_of_a_round =
            units::as_fraction(situation.knowledge().tables.part("prevention_worth_of_a_round").value);
    return goal;
}

Result<Planned> choose_plan(const Situation& situation, const PlanOptions& options) {
    auto setting = setting_for(situation, options);
    if (!setting) return fail(setting.error());
    const auto believed = situation.believed({options.draws, options.seed}, options.progress);
    if (!believed) return fail(believed.error());
    const plan::Goal goal = goal_of(situation, options);
    const auto& [ensemble, belief] = **believed;
    auto choice = plan::choose_plan(*setting, ensemble, belief, goal);
    if (!choice) return fail(cancelled());
    Planned planned{situation.shared_from_this(), *believed, std::move(*setting), goal, std::move(*choice)};
    planned.goal.progress = {};
    planned.goal.best_so_far = {};
    if (!options.prevent) return planned;
    planned.prevention = plan::weigh_prevention(planned.setting, ensemble, belief, goal, planned.choice);
    if (!planned.prevention) return fail(cancelled());
    return planned;
}

Result<std::vector<plan::Rung>> each_round_of(const Planned& planned, const plan::ScoredPlan& plan,
                                              std::function<bool(double)> progress) {
    plan::Goal goal = planned.goal;
    goal.progress = std::move(progress);
    const auto& [ensemble, belief] = *planned.believed;
    auto rungs = plan::each_round(planned.setting, ensemble, belief, goal, planned.choice, plan.course);
    if (!rungs) return fail(cancelled());
    return std::move(*rungs);
}

worklist::Worklist preview_worklist(const Planned& planned, const plan::ScoredPlan& plan) {
    const Situation& situation = *planned.situation;
    const auto& choices = plan.schedule.assignment.choices;
    records::Collection collection =
        with_tubs(situation.collection(), tubs_to_add(choices, situation.collection()));
    collection.plan = {situation.today(), 0, adoption_of(plan, planned.setting.strength)};
    collection.course_began.reset();
    const safety::Case with =
        safety::prepare(collection, situation.knowledge().tables, situation.knowledge().taxa);
    return worklist::make_worklist(
        {with, planned.setting.known, planned.setting.exposed, situation.today(), planned.setting.strength});
}

}  // namespace mitefall::service
