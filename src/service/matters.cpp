#include "service/matters.h"

namespace mitefall::service {
namespace {

using base::fail;
using base::Result;

struct Scored {
    std::string plan;
    bool adopted = false;
    forecast::Forecast forecast;
};

Result<Scored> score_adopted(const Keeper& keeper, const PlanOptions& options, const Now& now) {
    auto forecast = keeper.rescore(options, now);
    if (!forecast) return fail(forecast.error());
    return Scored{"what is left of it", true, std::move(*forecast)};
}

Result<Scored> score_recommended(const Keeper& keeper, const mites::Ensemble& ensemble,
                                 const PlanOptions& options, const Now& now) {
    const auto planned = keeper.choose_plan(options, now);
    if (!planned) return fail(planned.error());
    if (!*planned) return fail(cancelled());
    const plan::ScoredPlan& best = (*planned)->choice.recommended;
    const plan::Scorer scorer(*(*planned)->setting, ensemble, (*planned)->belief, options.horizon_days,
                              branching::for_show);
    auto forecast = scorer.score(best.schedule, 0);
    if (!forecast) return fail(cancelled());
    return Scored{plan::describe(best.course, best.schedule.assignment.rounds, best.schedule.does), false,
                  std::move(*forecast)};
}

}  // namespace

Result<Matters> what_matters(const Keeper& keeper, const Knowledge& knowledge, const PlanOptions& options,
                             const Now& now) {
    const auto today = keeper.collection(now.today);
    if (!today) return fail(today.error());
    const auto ensemble = mites::draw_parameters(knowledge.tables, options.draws, options.seed);
    auto scored =
        today->plan ? score_adopted(keeper, options, now) : score_recommended(keeper, ensemble, options, now);
    if (!scored) return fail(scored.error());
    // A draw that the records rule out has no chance and no weight.
    std::vector<double> chance = scored->forecast.chance;
    const std::vector<double>& weight = scored->forecast.weight;
    for (std::size_t i = 0; i < chance.size(); ++i) {
        if (!(weight[i] > 0)) chance[i] = 0.5;
    }
    return Matters{std::move(scored->plan), scored->adopted, scored->forecast.clear,
                   forecast::rank_influences(
                       {forecast::drawn_inputs(ensemble), forecast::log_odds(chance), chance, weight, 0})};
}

}  // namespace mitefall::service
