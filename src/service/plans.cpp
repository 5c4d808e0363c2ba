#include "service/plans.h"

#include "service/adopted.h"

namespace mitefall::service {
namespace {

Result<void> check_limits(const plan::Limits& limits, const records::Collection& today) {
    for (const records::EnclosureId& id : limits.only) {
        if (today.enclosures.contains(id)) continue;
        return fail({base::ErrorKind::not_found,
                     "there is no enclosure of that name",
                     id.text(),
                     {},
                     "look it up among the enclosures",
                     {}});
    }
    if (limits.free_days.none())
        return fail(
            base::invalid("no day of the week is free", {}, "at least one", "name the days you have"));
    return {};
}

}  // namespace

Result<Planned> choose_plan(const Situation& situation, const PlanOptions& options) {
    if (const auto ok = check_limits(options.limits, situation.collection()); !ok) return fail(ok.error());
    auto setting = situation.setting(options.strength.value_or(usual_strength(situation.knowledge())));
    if (!setting) return fail(setting.error());
    setting->limits = options.limits;
    const auto believed = situation.believed({options.draws, options.seed}, options.progress);
    if (!believed) return fail(believed.error());
    const plan::Goal goal{options.target, options.horizon_days, options.prefer, options.progress};
    auto choice = plan::choose_plan(*setting, (*believed)->ensemble, (*believed)->belief, goal);
    if (!choice) return fail(cancelled());
    return Planned{situation.shared_from_this(), *believed, std::move(*setting), std::move(*choice)};
}

worklist::Worklist preview_worklist(const Planned& planned, const plan::ScoredPlan& plan) {
    const Situation& situation = *planned.situation;
    records::Collection collection = situation.collection();
    collection.plan = {situation.today(), 0, adoption_of(plan, planned.setting.strength)};
    collection.course_began.reset();
    const safety::Case with =
        safety::prepare(collection, situation.knowledge().tables, situation.knowledge().taxa);
    return worklist::make_worklist(
        {with, planned.setting.known, planned.setting.exposed, situation.today(), planned.setting.strength});
}

}  // namespace mitefall::service
