#include "service/rescore.h"

#include <algorithm>

#include "plan/search.h"
#include "service/adopted.h"
#include "worklist/worklist.h"

namespace mitefall::service {

base::Result<forecast::Forecast> rescore(const Situation& situation, const PlanOptions& options) {
    const auto setting = situation.setting_of_course();
    if (!setting) return fail(setting.error());
    const records::Collection& today = situation.collection();
    if (!today.plan) return fail(no_plan());
    const auto believed = situation.believed({options.draws, options.seed}, options.progress);
    if (!believed) return fail(believed.error());
    const plan::Scorer scorer(*setting, (*believed)->ensemble, (*believed)->belief,
                              horizon_left(today, options, today.day), branching::for_show);
    auto scored =
        scorer.score(plan::fit(worklist::assignment_on_record(today), *setting), 0, options.progress);
    if (!scored) return fail(cancelled());
    return std::move(*scored);
}

/// The horizon counts from the start of the course, so that a day gone by does not change the question.
double horizon_left(const records::Collection& collection, const PlanOptions& options, units::Day today) {
    const units::Day began = collection.course_since().value_or(today);
    return std::max(1.0, options.horizon_days - static_cast<double>((today - began).count()));
}

}  // namespace mitefall::service
