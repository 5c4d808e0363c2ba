#include "plan/procedure.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/contract.h"
#include "plan/by_draw.h"
#include "plan/prevention.h"

namespace mitefall::plan {
namespace {

using branching::Question;
using scenario::Event;
using scenario::Scenario;
using units::Day;

void put_in_order(Scenario& scenario) {
    std::stable_sort(scenario.events.begin(), scenario.events.end(),
                     [](const Event& a, const Event& b) { return a.time < b.time; });
}

class ProcedureWeigher {
  public:
    ProcedureWeigher(const Setting& setting, const Schedule& course, const std::vector<Day>& looks,
                     DrawAsker& asking)
        : setting_(setting),
          course_(course),
          looks_(looks),
          asking_(asking),
          once_(apply(course, setting, asking.present())),
          look_(look_at_all(course.assignment.enclosures, setting)) {}

    Procedure weigh(double to) {
        to_ = to;
        const std::vector<double> before = asking_.weights();
        on_record_ = asking_.log_clean(asking_.present(), asking_.today());
        const std::vector<double> weights = base::weigh(before, on_record_);
        const PerDraw once = clear(once_);
        const PerDraw clear_unseen = clear(with_looks(once_, count()));
        const PerDraw clean = exp_of_difference(
            asking_.log_chance(with_looks(once_, count()), to_, Question::any_check_fails), on_record_);
        const PerDraw whole = clear_by_looking(count(), [&](std::optional<int> begun, int made) {
            if (!begun) return clear_unseen;
            return clear(with_looks(once_more(*begun), made));
        });
        Procedure told;
        told.once = base::band_of(once, weights);
        told.whole = base::band_of(whole, weights);
        told.found = share_of(less(not_(once), less(clean, clear_unseen)), not_(once), weights);
        told.again = share_of(less(whole, clear_unseen), not_(clean), weights);
        return told;
    }

  private:
    [[nodiscard]] int count() const { return static_cast<int>(looks_.size()); }
    [[nodiscard]] double time_of(int look) const {
        return setting_.known.time_of(looks_[static_cast<std::size_t>(look)]);
    }

    static PerDraw not_(PerDraw chance) {
        for (double& one : chance) one = 1 - one;
        return chance;
    }

    /// Bayes: each draw counts by its chance of the whole. None where that cannot be.
    static std::optional<base::Band> share_of(const PerDraw& part, const PerDraw& whole,
                                              std::vector<double> weights) {
        constexpr double hardly = 1e-12;
        PerDraw share(part.size());
        bool is_any = false;
        for (std::size_t i = 0; i < part.size(); ++i) {
            const bool is_there = whole[i] > hardly;
            weights[i] *= is_there ? whole[i] : 0;
            is_any = is_any || weights[i] > 0;
            share[i] = is_there ? std::clamp(part[i] / whole[i], 0.0, 1.0) : 0;
        }
        return is_any ? std::optional(base::band_of(share, weights)) : std::nullopt;
    }

    /// Given the clean looks on record.
    PerDraw clear(const Scenario& scenario) {
        return exp_of_difference(asking_.log_chance(scenario, to_, Question::no_survivor), on_record_);
    }

    /// The first so many looks, each clean and before what is done that day.
    [[nodiscard]] Scenario with_looks(const Scenario& scenario, int made) const {
        Scenario looked{scenario.places, {}};
        for (int i = 0; i < made; ++i) {
            for (const scenario::CleanCheck& check : look_) looked.events.push_back({time_of(i), check});
        }
        looked.events.insert(looked.events.end(), scenario.events.begin(), scenario.events.end());
        put_in_order(looked);
        return looked;
    }

    /// As it is up to the look; from then on as both courses together are permitted.
    [[nodiscard]] Scenario once_more(int look) const {
        Assignment both = course_.assignment;
        const Day begin = looks_[static_cast<std::size_t>(look)];
        for (const Day round : course_.assignment.rounds)
            both.rounds.push_back(begin + (round - course_.assignment.rounds.front()));
        const Scenario together = apply(fit(both, setting_), setting_, asking_.present());
        Scenario joined{once_.places, {}};
        std::copy_if(once_.events.begin(), once_.events.end(), std::back_inserter(joined.events),
                     [&](const Event& event) { return event.time < time_of(look); });
        std::copy_if(together.events.begin(), together.events.end(), std::back_inserter(joined.events),
                     [&](const Event& event) { return event.time >= time_of(look); });
        return joined;
    }

    const Setting& setting_;
    const Schedule& course_;
    const std::vector<Day>& looks_;
    DrawAsker& asking_;
    Scenario once_;
    std::vector<scenario::CleanCheck> look_;
    double to_ = 0;
    PerDraw on_record_;  ///< ln P(the clean looks on record)
};

}  // namespace

std::optional<Procedure> weigh_procedure(const Setting& setting, const mites::Ensemble& ensemble,
                                         const belief::Belief& belief, const Goal& goal,
                                         const Schedule& course, const std::vector<Day>& looks) {
    base::expects(!course.assignment.rounds.empty() && !looks.empty() && looks.front() > setting.today,
                  "a course, and looks after it");
    const int asked = 4 + 2 * static_cast<int>(looks.size());
    const std::size_t blocks = ensemble.draws.size() / branching::lane_count;
    std::size_t done = 0;
    const std::function<bool(double)> progress = [&](double) {
        ++done;
        return !goal.progress ||
               goal.progress(std::min(1.0, static_cast<double>(done) / static_cast<double>(blocks) / asked));
    };
    DrawAsker asking(setting, ensemble, belief, branching::for_show, progress);
    const Day by = looks.back() + units::Days(static_cast<int>(std::lround(goal.horizon_days)));
    Procedure told = ProcedureWeigher(setting, course, looks, asking).weigh(setting.known.time_of(by));
    if (asking.is_cancelled()) return std::nullopt;
    told.looks = looks;
    told.looked_at = course.assignment.enclosures;
    told.by = by;
    return told;
}

}  // namespace mitefall::plan
