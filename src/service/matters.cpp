#include "service/matters.h"

#include "plan/told.h"
#include "service/plans.h"
#include "service/rescore.h"

namespace mitefall::service {
namespace {

struct Scored {
    statement::Statement plan;
    bool adopted = false;
    forecast::Forecast forecast;
};

Result<Scored> score_adopted(const Situation& situation, const PlanOptions& options) {
    auto forecast = rescore(situation, options);
    if (!forecast) return fail(forecast.error());
    return Scored{plan::told::what_is_left(), true, std::move(*forecast)};
}

Result<Scored> score_recommended(const Situation& situation, const PlanOptions& options) {
    const auto planned = choose_plan(situation, options);
    if (!planned) return fail(planned.error());
    const plan::ScoredPlan& best = planned->choice.recommended;
    const plan::Scorer scorer(planned->setting, planned->believed->ensemble, planned->believed->belief,
                              options.horizon_days, branching::for_show);
    auto forecast = scorer.score(best.schedule, 0);
    if (!forecast) return fail(cancelled());
    return Scored{plan::tell(best.course, best.schedule.assignment.rounds, best.schedule.does), false,
                  std::move(*forecast)};
}

}  // namespace

Result<Matters> what_matters(const Situation& situation, const PlanOptions& options) {
    auto scored = situation.collection().plan ? score_adopted(situation, options)
                                              : score_recommended(situation, options);
    if (!scored) return fail(scored.error());
    const auto believed = situation.believed({options.draws, options.seed}, options.progress);
    if (!believed) return fail(believed.error());
    // A draw that the records rule out has no chance and no weight.
    std::vector<double> chance = scored->forecast.chance;
    const std::vector<double>& weight = scored->forecast.weight;
    for (std::size_t i = 0; i < chance.size(); ++i) {
        if (!(weight[i] > 0)) chance[i] = 0.5;
    }
    return Matters{std::move(scored->plan), scored->adopted, scored->forecast.clear,
                   forecast::rank_influences({forecast::drawn_inputs((*believed)->ensemble),
                                              forecast::log_odds(chance), chance, weight, 0})};
}

}  // namespace mitefall::service
