#include "service/procedure.h"

#include "service/adopted.h"
#include "service/stand.h"
#include "worklist/check_days.h"

namespace mitefall::service {
namespace {

std::vector<units::Day> looks_after(const plan::Schedule& course, const plan::Setting& setting) {
    std::vector<units::Day> looks;
    const auto days = worklist::check_days_after(course, setting.with.tables);
    for (std::size_t i = 0; i < days.size() && looks.size() < procedure_looks; i += 2) {
        if (days[i] > setting.today) looks.push_back(days[i]);
    }
    return looks;
}

}  // namespace

Result<plan::Procedure> procedure_of(const Situation& situation, const plan::Setting& setting,
                                     const plan::Schedule& course, const PlanOptions& options) {
    const auto looks = looks_after(course, setting);
    if (looks.empty())
        return fail({ErrorKind::not_found,
                     "there is no day left to look on after this course",
                     {},
                     {},
                     "plan anew",
                     {}});
    const auto believed =
        situation.believed({options.draws, options.seed}, part_of(options.progress, 0, 0.2));
    if (!believed) return fail(believed.error());
    plan::Goal goal;
    goal.horizon_days = options.horizon_days;
    goal.progress = part_of(options.progress, 0.2, 1);
    auto told =
        plan::weigh_procedure(setting, (*believed)->ensemble, (*believed)->belief, goal, course, looks);
    if (!told) return fail(cancelled());
    return std::move(*told);
}

Result<plan::Procedure> procedure_on_record(const Situation& situation, const PlanOptions& options) {
    const auto setting = situation.setting_of_course();
    if (!setting) return fail(setting.error());
    if (!situation.collection().plan) return fail(no_plan());
    const auto course = plan::fit(worklist::assignment_on_record(situation.collection()), *setting);
    return procedure_of(situation, *setting, course, options);
}

}  // namespace mitefall::service
