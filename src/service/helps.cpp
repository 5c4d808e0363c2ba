#include "service/helps.h"

#include <algorithm>
#include <utility>

#include "plan/search.h"
#include "service/changes.h"
#include "service/plans.h"

namespace mitefall::service {
namespace {

using formats::HelpsView;
using formats::HelpView;

/// Asks the same question of the records as they are and as they would be.
class Comparing {
  public:
    Comparing(const Situation& situation, const PlanOptions& options)
        : situation_(situation), options_(options) {}

    [[nodiscard]] Result<HelpsView> compare() {
        const auto setting = setting_for(situation_, options_);
        if (!setting) return fail(setting.error());
        const std::vector<Change> changes = possible_changes(*setting, situation_.with_wood(*setting));
        const auto all = all_of_the_keepers(changes);
        asked_ = changes.size() + (all ? 2 : 1);
        const auto now = best(situation_, situation_, options_);
        if (!now) return fail(now.error());
        HelpsView helps{now->clear, now->clear.p10 >= options_.target, options_.target, {}};
        for (const Change& change : changes) {
            auto helped = if_made(change, now->clear);
            if (!helped) return fail(helped.error());
            helps.changes.push_back(std::move(*helped));
        }
        std::stable_sort(helps.changes.begin(), helps.changes.end(),
                         [](const HelpView& a, const HelpView& b) { return a.gain > b.gain; });
        if (!all) return helps;
        auto together = if_made(*all, now->clear);
        if (!together) return fail(together.error());
        helps.all_own = std::move(*together);
        return helps;
    }

  private:
    [[nodiscard]] Result<HelpView> if_made(const Change& change, const base::Band& now) {
        PlanOptions options = options_;
        options.limits.spare_tubs = std::max(options.limits.spare_tubs, change.spare_tubs);
        const auto then = with(change, situation_);
        auto found = best(*then, change.touches_mites ? *then : situation_, options);
        if (!found) return fail(found.error());
        const plan::Schedule& schedule = found->schedule;
        HelpView view{change.what,
                      std::string(to_text(change.whose)),
                      plan::tell(found->course, schedule.assignment.rounds, schedule.does),
                      found->clear,
                      found->clear.p10 >= options_.target,
                      found->clear.mean - now.mean};
        const auto& sources = situation_.knowledge().tables.sources();
        for (const std::string& key : change.sources) view.sources.push_back(sources.at(key));
        return view;
    }

    /// `of_mites`: whose belief holds; the same where only what is permitted differs.
    [[nodiscard]] Result<plan::ScoredPlan> best(const Situation& then, const Situation& of_mites,
                                                const PlanOptions& options) {
        const auto setting = setting_for(then, options);
        if (!setting) return fail(setting.error());
        const auto believed = of_mites.believed({options.draws, options.seed}, stage(0));
        if (!believed) return fail(believed.error());
        plan::Goal goal = goal_of(then, options);
        goal.progress = stage(0.3);
        auto found = plan::best_course(*setting, (*believed)->ensemble, (*believed)->belief, goal);
        if (!found) return fail(cancelled());
        ++answered_;
        return std::move(*found);
    }

    /// Of the answer at hand, from the share of it that is done.
    [[nodiscard]] std::function<bool(double)> stage(double from) const {
        if (!options_.progress) return {};
        return [this, from](double share) {
            const double done = static_cast<double>(answered_) + from + (1 - from) * share;
            return options_.progress(done / static_cast<double>(asked_));
        };
    }

    const Situation& situation_;
    const PlanOptions& options_;
    std::size_t asked_ = 1;
    std::size_t answered_ = 0;
};

}  // namespace

Result<HelpsView> what_helps(const Situation& situation, const PlanOptions& options) {
    return Comparing(situation, options).compare();
}

}  // namespace mitefall::service
