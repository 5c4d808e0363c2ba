#include "plan/prevention.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "plan/by_draw.h"
#include "plan/told.h"
#include "safety/handling.h"
#include "scenario/actions.h"

namespace mitefall::plan {
namespace {

using base::Band;
using branching::Question;
using scenario::Scenario;

/// Gains are differences of chances that are all but 1.
constexpr branching::Tolerance fine{1e-6, 1e-12};
constexpr double points = 100;
constexpr int days_between_looks = 7;

class Weigher {
  public:
    Weigher(const Setting& setting, const mites::Ensemble& ensemble, const belief::Belief& belief,
            const Goal& goal)
        : setting_(setting),
          goal_(goal),
          still_wanted_([&goal](double) { return !goal.progress || goal.progress(1); }),
          asking_(setting, ensemble, belief, fine, still_wanted_) {}
    Weigher(const Weigher&) = delete;
    Weigher& operator=(const Weigher&) = delete;

    std::optional<Prevention> weigh(const PlanChoice& choice) {
        Prevention all;
        Course course = choice.recommended.course;
        course.rounds = 1;
        all.one_round = fit(assign(course, setting_), setting_);
        all.one_round_told = tell(course, all.one_round.assignment.rounds, all.one_round.does);
        all.looked_at = enclosures_of(course.scope, setting_);
        look_ = look_at_all(all.looked_at, setting_);
        look_at_now(all);
        look_ahead(all, best_of(choice));
        if (asking_.is_cancelled()) return std::nullopt;
        all.advice = advise(all);
        return all;
    }

  private:
    static const Course& best_of(const PlanChoice& choice) {
        const ScoredPlan* best = &choice.recommended;
        for (const ScoredPlan& other : choice.alternatives) {
            if (other.clear.mean > best->clear.mean) best = &other;
        }
        return best->course;
    }

    /// Looks in the first so many weeks, each clean.
    [[nodiscard]] Scenario with_looks(int count) const {
        Scenario looked = asking_.present();
        for (int i = 0; i < count; ++i) {
            for (const scenario::CleanCheck& check : look_) looked.events.push_back({time_of_look(i), check});
        }
        std::stable_sort(looked.events.begin(), looked.events.end(),
                         [](const scenario::Event& a, const scenario::Event& b) { return a.time < b.time; });
        return looked;
    }

    [[nodiscard]] double time_of_look(int index) const {
        return asking_.today() + index * days_between_looks;
    }

    /// The course begun on the day of that look.
    [[nodiscard]] Schedule begun_at(int look, const Course& course) const {
        const Setting then{setting_.with,     setting_.known,
                           setting_.exposed,  setting_.today + units::Days(look * days_between_looks),
                           setting_.strength, setting_.limits};
        return fit(assign(course, then), then);
    }

    /// Where the look is clean the draws weigh as Bayes' rule has it.
    void look_at_now(Prevention& all) {
        const PerDraw before = asking_.weights();
        const Scenario looked = with_looks(1);
        on_record_ = asking_.log_clean(asking_.present(), asking_.today());
        const PerDraw clean = asking_.log_clean(looked, asking_.today());
        weights_ = base::weigh(before, on_record_);
        std::vector<scenario::PlaceIndex> there;
        for (const records::EnclosureId& id : all.looked_at)
            there.push_back(setting_.known.enclosures.at(id));
        all.clear_now = band(asking_.log_chance(asking_.present(), asking_.today(), Question::no_survivor));
        all.clear_there = there.empty() ? all.clear_now
                                        : band(asking_.log_chance(asking_.present(), asking_.today(),
                                                                  Question::no_survivor, std::move(there)));
        all.clear_if_clean = base::band_of(
            exp_of_difference(asking_.log_chance(looked, asking_.today(), Question::no_survivor), clean),
            base::weigh(before, clean));
        PerDraw finds = exp_of_difference(clean, on_record_);
        for (double& chance : finds) chance = 1 - chance;
        all.finds = base::band_of(finds, weights_);
    }

    /// Given the clean looks on record.
    PerDraw clear_at_the_end(const Scenario& scenario) {
        return exp_of_difference(
            asking_.log_chance(scenario, asking_.today() + goal_.horizon_days, Question::no_survivor),
            on_record_);
    }

    /// The course begins with the first look that finds something.
    PerDraw clear_with(int looks, const Course& if_found) {
        return clear_by_looking(looks, [&](std::optional<int> begun, int made) {
            if (!begun) return clear_at_the_end(with_looks(made));
            return clear_at_the_end(apply(begun_at(*begun, if_found), setting_, with_looks(made)));
        });
    }

    void look_ahead(Prevention& all, const Course& if_found) {
        const PerDraw nothing = clear_at_the_end(asking_.present());
        const auto tell = [&](const PerDraw& clear, Band& chance, Band& gain) {
            chance = base::band_of(clear, weights_);
            gain = base::band_of(less(clear, nothing), weights_);
        };
        all.nothing = base::band_of(nothing, weights_);
        tell(clear_at_the_end(apply(all.one_round, setting_, asking_.present())), all.round, all.round_gain);
        tell(clear_with(1, if_found), all.look, all.look_gain);
        tell(clear_with(weekly_looks, if_found), all.looks, all.looks_gain);
    }

    [[nodiscard]] Band band(const PerDraw& log_both) const {
        return base::band_of(exp_of_difference(log_both, on_record_), weights_);
    }

    [[nodiscard]] statement::Statement advise(const Prevention& all) const {
        const double look = all.look_gain.mean * points;
        const double looks = all.looks_gain.mean * points;
        const double round = all.round_gain.mean * points;
        const double burden = goal_.worth_of_a_round * points;
        if (std::max(looks, round) < burden)
            return told::neither_is_worth_it(all.clear_now.mean * points, looks, round);
        if (looks >= round) return told::look_first(looks, look, round);
        return round - looks < burden ? told::look_rather(looks, look, round)
                                      : told::treat_first(looks, look, round);
    }

    const Setting& setting_;
    const Goal& goal_;
    std::function<bool(double)> still_wanted_;
    DrawAsker asking_;
    std::vector<scenario::CleanCheck> look_;
    PerDraw on_record_;  ///< ln P(the clean looks on record)
    PerDraw weights_;
};

}  // namespace

std::vector<scenario::CleanCheck> look_at_all(const std::vector<records::EnclosureId>& enclosures,
                                              const Setting& setting) {
    std::vector<scenario::CleanCheck> checks;
    for (const records::EnclosureId& id : enclosures) {
        if (setting.with.collection.animals_in(id).empty()) continue;
        const auto method = safety::is_venomous_inside(setting.with, id) ? records::CheckMethod::paper_trap
                                                                         : records::CheckMethod::look_over;
        checks.push_back(scenario::clean_check(setting.known.enclosures.at(id), method));
    }
    return checks;
}

std::optional<Prevention> weigh_prevention(const Setting& setting, const mites::Ensemble& ensemble,
                                           const belief::Belief& belief, const Goal& goal,
                                           const PlanChoice& choice) {
    return Weigher(setting, ensemble, belief, goal).weigh(choice);
}

}  // namespace mitefall::plan
