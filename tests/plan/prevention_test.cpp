#include "plan/prevention.h"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <set>

#include "network/classes.h"
#include "plan/told.h"
#include "records/journal.h"
#include "safety/scene.h"
#include "scenario/actions.h"
#include "shared/fixtures.h"

namespace mitefall::plan {
namespace {

using namespace records;

const units::Day today = day(3, 10);
constexpr double horizon = 84;
constexpr double carries = 0.3;  // chance that the newcomer brought one female

/// One tub, one snake that came today with one female on it or with none, and nothing else that may be there.
class Newcomer {
  public:
    explicit Newcomer(std::vector<Fact> more = {}) {
        journal_.add(day(1, 1), room("snakes"));
        journal_.add(day(1, 1), tub("a"));
        journal_.add(today, snake("una", "a"));
        journal_.add(today, Weighed{AnimalId("una"), units::grams(900)});
        for (Fact& fact : more) journal_.add(today, std::move(fact));
        collection_ = collection_on(journal_.entries, today);
        with_ =
            std::make_unique<safety::Case>(safety::prepare(collection_, safety::tables(), safety::taxa()));
        known_ = scenario::case_from_records(journal_.entries, today, units::days_long(60), ensemble().fixed)
                     .value();
        belief::BeliefRequest request;
        request.scenario = &known_.scenario;
        request.ensemble = &ensemble();
        request.arrivals = known_.arrivals;
        request.at = known_.from;
        request.prior = belief::introduction_prior(safety::tables());
        request.prior.arrival_carries = carries;
        request.prior.arrival_founders = {1, 1, 1};
        request.prior.unnoticed_entries_per_year = 0;
        request.prior.there_for_longer = 0;
        request.options.kept = 4000;
        belief_ = belief::believe(request);
    }

    /// One draw eight times over, in which a stage is one step: nothing is left to chance but what is asked.
    static const mites::Ensemble& ensemble() {
        static const mites::Ensemble one = [] {
            mites::Ensemble all = mites::draw_parameters(safety::tables(), branching::lane_count, 7);
            mites::MiteParameters draw = all.draws[3];
            draw.erlang_shape = 1;
            all.draws.assign(branching::lane_count, draw);
            return all;
        }();
        return one;
    }
    static const mites::MiteParameters& draw() { return ensemble().draws[0]; }

    [[nodiscard]] Setting setting() const {
        return {*with_, known_, {}, today, units::milligrams_per_litre(10)};
    }
    [[nodiscard]] PlanChoice choice(double worth) const {
        return choose_plan(setting(), ensemble(), belief_, goal(worth)).value();
    }
    [[nodiscard]] Prevention weigh(double worth = 0.01) const {
        return weigh_prevention(setting(), ensemble(), belief_, goal(worth), choice(worth)).value();
    }
    static Goal goal(double worth) {
        Goal goal{0.99, horizon, Prefer::burden, {}};
        goal.worth_of_a_round = worth;
        return goal;
    }

    /// Chance that one female that sits on the newcomer today leaves nothing alive at the horizon: the
    /// engine's q.
    [[nodiscard]] double q(const Schedule& done = {}) const {
        const scenario::Scenario scenario =
            apply(done, setting(), scenario::forget_past(known_.scenario, known_.from));
        const fixtures::Swept swept(scenario, network::keep_apart(scenario), draw(), known_.from,
                                    known_.from + horizon, branching::Question::no_survivor, {1e-9, 1e-14});
        return 1 - swept.failure(known_.enclosures.at(EnclosureId("a")), mites::Stage::adult_feeding_1);
    }

  private:
    Journal journal_;
    Collection collection_;
    std::unique_ptr<safety::Case> with_;
    scenario::RecordedCase known_;
    belief::Belief belief_;
};

const Schedule& best_of(const PlanChoice& choice) {
    const ScoredPlan* best = &choice.recommended;
    for (const ScoredPlan& other : choice.alternatives) {
        if (other.clear.mean > best->clear.mean) best = &other;
    }
    return best->schedule;
}

// By hand: one way in of chance p. Nothing done, P(clear) = 1 - p (1 - q). A look sees the one mite on the
// animal with chance d: it finds something with p d, and if it does not, P(clear already) = (1 - p) / (1 - p
// d) by Bayes' rule; followed by a course where it finds the mite, P(clear) = 1 - p + p (1 - d) q + p d
// q_course.
TEST(Prevention, one_way_in_and_one_look_by_hand) {
    const Newcomer newcomer;
    const PlanChoice choice = newcomer.choice(0.01);
    const Prevention all = newcomer.weigh();
    const double d = mites::detection_per_mite(Newcomer::ensemble().fixed, Newcomer::draw());
    const double q = newcomer.q();
    const double q_round = newcomer.q(all.one_round);
    const double q_course = newcomer.q(best_of(choice));
    ASSERT_GT(d, 0.05);
    ASSERT_GT(q_course, q + 0.1);
    constexpr double solver = 1e-5;
    EXPECT_NEAR(all.clear_now.mean, 1 - carries, 1e-9);
    EXPECT_NEAR(all.clear_there.mean, 1 - carries, 1e-9);
    EXPECT_NEAR(all.finds.mean, carries * d, 1e-9);
    EXPECT_NEAR(all.clear_if_clean.mean, (1 - carries) / (1 - carries * d), 1e-9);
    EXPECT_NEAR(all.nothing.mean, 1 - carries * (1 - q), solver);
    EXPECT_NEAR(choice.untreated.mean, 1 - carries * (1 - q), 0.01)
        << "solved with the tolerance of screening";
    EXPECT_NEAR(all.round.mean, 1 - carries * (1 - q_round), solver);
    EXPECT_NEAR(all.look.mean, 1 - carries + carries * ((1 - d) * q + d * q_course), solver);
    EXPECT_NEAR(all.round_gain.mean, carries * (q_round - q), solver);
    EXPECT_NEAR(all.look_gain.mean, carries * d * (q_course - q), solver);
    EXPECT_GT(all.looks_gain.mean, all.look_gain.mean) << "later there is more to be seen";
    EXPECT_EQ(all.looked_at, std::vector{EnclosureId("a")});
}

TEST(Prevention, a_round_is_advised_only_where_it_does_more_than_looking_by_what_it_must_be_worth) {
    const Newcomer newcomer;
    std::set<std::string_view> advised;
    for (const double worth : {0.0001, 0.01, 0.05, 0.2, 0.9}) {
        const Prevention all = newcomer.weigh(worth);
        const double round = all.round_gain.mean;
        const double looks = all.looks_gain.mean;
        const std::string_view expected = std::max(round, looks) < worth ? told::neither_is_worth_it.id
                                          : looks >= round               ? told::look_first.id
                                          : round - looks < worth        ? told::look_rather.id
                                                                         : told::treat_first.id;
        EXPECT_EQ(all.advice.id, expected) << worth;
        advised.insert(all.advice.id);
    }
    EXPECT_TRUE(advised.contains(told::neither_is_worth_it.id));
    EXPECT_GE(advised.size(), 2U);
}

// The clean look of today is on record: what it says is in every chance, by the same rule.
TEST(Prevention, a_clean_look_on_record_counts) {
    const Newcomer looked({Checked{EnclosureId("a"), CheckMethod::look_over, SeenCount::none}});
    const double d = mites::detection_per_mite(Newcomer::ensemble().fixed, Newcomer::draw());
    const double left = carries * (1 - d) / (1 - carries * d);
    const Prevention all = looked.weigh();
    EXPECT_NEAR(all.clear_now.mean, 1 - left, 1e-9);
    EXPECT_NEAR(all.nothing.mean, 1 - left * (1 - Newcomer().q()), 1e-5);
}

TEST(Prevention, a_further_round_is_recommended_only_where_it_is_worth_its_burden) {
    const Newcomer newcomer;
    std::size_t before = most_rounds + 1;
    for (const double worth : {0.001, 0.02, 0.2}) {
        const PlanChoice choice = newcomer.choice(worth);
        const auto rounds = choice.recommended.schedule.assignment.rounds.size();
        EXPECT_LE(rounds, before) << worth;
        before = rounds;
        for (const ScoredPlan& other : choice.alternatives) {
            const auto more =
                static_cast<double>(other.schedule.assignment.rounds.size()) - static_cast<double>(rounds);
            EXPECT_LE(other.clear.mean - choice.recommended.clear.mean, worth * more + 1e-9);
        }
    }
    EXPECT_EQ(before, 1U);
}

}  // namespace
}  // namespace mitefall::plan
