#include "plan/prevention.h"

#include <algorithm>
#include <cmath>
#include <utility>

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

/// One number per draw.
using PerDraw = std::vector<double>;

PerDraw exp_of_difference(const PerDraw& log_part, const PerDraw& log_whole) {
    PerDraw chance(log_part.size());
    for (std::size_t i = 0; i < chance.size(); ++i)
        chance[i] = std::isinf(log_whole[i]) ? 0 : std::min(1.0, std::exp(log_part[i] - log_whole[i]));
    return chance;
}

PerDraw less(PerDraw from, const PerDraw& what) {
    for (std::size_t i = 0; i < from.size(); ++i) from[i] -= what[i];
    return from;
}

class Weigher {
  public:
    Weigher(const Setting& setting, const mites::Ensemble& ensemble, const belief::Belief& belief,
            const Goal& goal)
        : setting_(setting),
          goal_(goal),
          today_(setting.known.time_of(setting.today)),
          present_(scenario::forget_past(setting.known.scenario, setting.known.from)) {
        request_.ensemble = &ensemble;
        request_.start = &belief;
        request_.from = setting.known.from;
        request_.tolerance = fine;
    }

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
        if (is_cancelled_) return std::nullopt;
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
        Scenario looked = present_;
        for (int i = 0; i < count; ++i) {
            for (const scenario::CleanCheck& check : look_) looked.events.push_back({time_of_look(i), check});
        }
        std::stable_sort(looked.events.begin(), looked.events.end(),
                         [](const scenario::Event& a, const scenario::Event& b) { return a.time < b.time; });
        return looked;
    }

    [[nodiscard]] double time_of_look(int index) const { return today_ + index * days_between_looks; }

    /// The course begun on the day of that look.
    [[nodiscard]] Schedule begun_at(int look, const Course& course) const {
        const Setting then{setting_.with,     setting_.known,
                           setting_.exposed,  setting_.today + units::Days(look * days_between_looks),
                           setting_.strength, setting_.limits};
        return fit(assign(course, then), then);
    }

    PerDraw log_chance(const Scenario& scenario, double to, Question question,
                       std::vector<scenario::PlaceIndex> counted = {}) {
        forecast::ForecastRequest request = request_;
        request.scenario = &scenario;
        request.to = to;
        request.counted = std::move(counted);
        if (goal_.progress) request.progress = [this](double) { return goal_.progress(1); };
        auto chances = is_cancelled_ ? std::nullopt : forecast::log_chances(request, question);
        is_cancelled_ = !chances;
        return is_cancelled_ ? PerDraw(request_.ensemble->draws.size(), 0.0) : std::move(*chances);
    }

    [[nodiscard]] static bool has_checks(const Scenario& scenario) {
        return std::any_of(scenario.events.begin(), scenario.events.end(), [](const scenario::Event& event) {
            return std::holds_alternative<scenario::CleanCheck>(event.what);
        });
    }

    PerDraw log_clean(const Scenario& scenario) {
        if (has_checks(scenario)) return log_chance(scenario, today_, Question::any_check_fails);
        return PerDraw(request_.ensemble->draws.size(), 0.0);
    }

    /// Where the look is clean the draws weigh as Bayes' rule has it.
    void look_at_now(Prevention& all) {
        request_.scenario = &present_;
        const PerDraw before = forecast::draw_weights(request_);
        const Scenario looked = with_looks(1);
        on_record_ = log_clean(present_);
        const PerDraw clean = log_clean(looked);
        weights_ = base::weigh(before, on_record_);
        std::vector<scenario::PlaceIndex> there;
        for (const records::EnclosureId& id : all.looked_at)
            there.push_back(setting_.known.enclosures.at(id));
        all.clear_now = band(log_chance(present_, today_, Question::no_survivor));
        all.clear_there = there.empty()
                              ? all.clear_now
                              : band(log_chance(present_, today_, Question::no_survivor, std::move(there)));
        all.clear_if_clean =
            base::band_of(exp_of_difference(log_chance(looked, today_, Question::no_survivor), clean),
                          base::weigh(before, clean));
        PerDraw finds = exp_of_difference(clean, on_record_);
        for (double& chance : finds) chance = 1 - chance;
        all.finds = base::band_of(finds, weights_);
    }

    /// Given the clean looks on record.
    PerDraw clear_at_the_end(const Scenario& scenario) {
        return exp_of_difference(log_chance(scenario, today_ + goal_.horizon_days, Question::no_survivor),
                                 on_record_);
    }

    /// The course begins with the first look that finds something. With C_k for clear under the course begun
    /// at look k and L_k for looks 1 to k clean, that is P(clear, L_n | nothing done) + sum over k of P(C_k,
    /// L_k-1) - P(C_k, L_k).
    PerDraw clear_by_looking(int looks, const Course& if_found) {
        PerDraw clear = clear_at_the_end(with_looks(looks));
        for (int k = 0; k < looks; ++k) {
            const Schedule schedule = begun_at(k, if_found);
            const PerDraw found = less(clear_at_the_end(apply(schedule, setting_, with_looks(k))),
                                       clear_at_the_end(apply(schedule, setting_, with_looks(k + 1))));
            for (std::size_t i = 0; i < clear.size(); ++i) clear[i] += found[i];
        }
        return clear;
    }

    void look_ahead(Prevention& all, const Course& if_found) {
        const PerDraw nothing = clear_at_the_end(present_);
        const auto tell = [&](const PerDraw& clear, Band& chance, Band& gain) {
            chance = base::band_of(clear, weights_);
            gain = base::band_of(less(clear, nothing), weights_);
        };
        all.nothing = base::band_of(nothing, weights_);
        tell(clear_at_the_end(apply(all.one_round, setting_, present_)), all.round, all.round_gain);
        tell(clear_by_looking(1, if_found), all.look, all.look_gain);
        tell(clear_by_looking(weekly_looks, if_found), all.looks, all.looks_gain);
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
    double today_;
    Scenario present_;
    forecast::ForecastRequest request_;
    std::vector<scenario::CleanCheck> look_;
    PerDraw on_record_;  ///< ln P(the clean looks on record)
    PerDraw weights_;
    bool is_cancelled_ = false;
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
