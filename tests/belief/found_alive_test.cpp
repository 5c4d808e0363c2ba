#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>

#include "belief/belief.h"
#include "records/journal.h"
#include "records/task_key.h"
#include "scenario/history.h"
#include "shared/fixtures.h"

// Where mites are found, mites are alive, whatever was done before (model M5): no treatment makes a find a
// mistake.
namespace mitefall::belief {
namespace {

using namespace records;
using units::Days;

constexpr int look_back = 60;  // days
const Day last = day(3, 1);
const std::vector<std::string> tubs{"a", "b", "c"};

mites::Ensemble few_draws() { return mites::draw_parameters(fixtures::tables(), branching::lane_count, 7); }

/// Two rooms, three tubs, four snakes.
Journal collection() {
    Journal journal = small_collection();
    journal.add(day(1, 1), room("hall"));
    journal.add(day(1, 1), tub("c", "hall"));
    journal.add(day(1, 1), snake("otto", "b"));
    journal.add(day(1, 1), snake("nox", "c"));
    return journal;
}

std::vector<AnimalId> animals_in(const std::string& tub) {
    if (tub == "a") return {AnimalId("pim")};
    if (tub == "b") return {AnimalId("juno"), AnimalId("otto")};
    return {AnimalId("nox")};
}

Fact any_treatment() {
    const EnclosureId tub(*rc::gen::elementOf(tubs));
    const auto strength = units::milligrams_per_litre(*rc::gen::element(10.0, 200.0, 4000.0));
    switch (*rc::gen::inRange(0, 5)) {
        case 0: return SubstrateChanged{tub, Substrate::paper};
        case 1: return Treated{tub, animals_in(tub.text()), Method::soak, {}};
        case 2: return Treated{tub, animals_in(tub.text()), Method::oral_fluralaner, {}};
        case 3: return Treated{tub, animals_in(tub.text()), Method::spray_animal, strength};
        default: return Treated{tub, {}, Method::spray_bedding, strength};
    }
}

Fact any_find() {
    const EnclosureId tub(*rc::gen::elementOf(tubs));
    const auto count = *rc::gen::element(SeenCount::one, SeenCount::few, SeenCount::many, SeenCount::masses);
    if (*rc::gen::inRange(0, 4) == 0)
        return Checked{tub,
                       *rc::gen::element(CheckMethod::look_over, CheckMethod::soak, CheckMethod::wipe,
                                         CheckMethod::paper_trap),
                       count};
    return Sighted{tub, count,
                   *rc::gen::element(SeenWhere::on_animal, SeenWhere::in_water, SeenWhere::on_paper)};
}

/// Treatments, often one after another and with the paper kept damp; a find or two, then those of the last
/// day, when something may be done as well.
Journal any_journal() {
    Journal journal = collection();
    std::vector<std::pair<Day, Fact>> facts;
    const auto any_day = [](int from, int to) { return last - Days(*rc::gen::inRange(to, from)); };
    if (*rc::gen::inRange(0, 2) == 0) {
        PlanAdopted plan{{day(2, 10)}, {}, {}, {false, true}, units::milligrams_per_litre(200)};
        for (const std::string& tub : tubs) plan.enclosures.emplace_back(tub);
        facts.emplace_back(day(2, 10), plan);
    }
    for (int i = *rc::gen::inRange(0, 20); i > 0; --i) facts.emplace_back(any_day(30, 0), any_treatment());
    for (int i = *rc::gen::inRange(0, 3); i > 0; --i) facts.emplace_back(any_day(40, 1), any_find());
    for (int i = *rc::gen::inRange(1, 4); i > 0; --i) facts.emplace_back(last, any_find());
    std::stable_sort(facts.begin(), facts.end(),
                     [](const auto& one, const auto& other) { return one.first < other.first; });
    for (auto& [when, fact] : facts) journal.add(when, std::move(fact));
    return journal;
}

/// With few histories: what holds of any belief holds of a rough one.
Belief belief_of(const scenario::RecordedCase& known) {
    const mites::Ensemble draws = few_draws();
    BeliefRequest request = request_of(known, draws, introduction_prior(fixtures::tables()), 3);
    request.options.least_histories = 96;
    request.options.most_passes = 2;
    return believe(request);
}

TEST(FoundAlive, where_mites_were_found_last_some_are_alive_whatever_was_done_before) {
    EXPECT_TRUE(rc::check("random journals", [] {
        const Journal journal = any_journal();
        const auto known = scenario::case_from_records(journal.entries, last, units::days_long(look_back),
                                                       mites::fixed_parameters(fixtures::tables()));
        RC_ASSERT(known.has_value());
        const Belief belief = belief_of(*known);
        RC_ASSERT(belief.alive > 1 - 1e-9);
        const auto places = mites_by_place(belief, known->scenario.places.size());
        for (const scenario::Look& look : known->looks) {
            if (!scenario::is_find(look) || look.time < known->from) continue;
            RC_ASSERT(places[look.place].any > 1 - 1e-9);
        }
        double behind = 0;
        for (const Introduction& one : belief.introductions) behind += one.behind;
        RC_ASSERT(std::abs(behind - 1) < 1e-6);
    }));
}

/// Nothing can have lived here for a month: sprayed day after day at a strength beyond any that is allowed.
scenario::RecordedCase drenched() {
    Journal journal = collection();
    for (int ago = 30; ago > 0; --ago) {
        for (const std::string& tub : tubs) {
            journal.add(
                last - Days(ago),
                Treated{EnclosureId(tub), {}, Method::spray_bedding, units::milligrams_per_litre(4000)});
            journal.add(last - Days(ago), Treated{EnclosureId(tub), animals_in(tub), Method::spray_animal,
                                                  units::milligrams_per_litre(4000)});
        }
    }
    journal.add(last, Sighted{EnclosureId("a"), SeenCount::few, SeenWhere::on_animal});
    return scenario::case_from_records(journal.entries, last, units::days_long(look_back),
                                       mites::fixed_parameters(fixtures::tables()))
        .value();
}

TEST(FoundAlive, mites_that_nothing_explains_are_told_as_newcomers_in_the_number_seen) {
    const scenario::RecordedCase known = drenched();
    mites::Ensemble draws = few_draws();
    IntroductionPrior prior = introduction_prior(fixtures::tables());
    prior.unnoticed_entries_per_year = 0;  // and nothing can have come in
    const Belief belief = belief::believe_records(known, draws, prior, 3);
    const auto found =
        std::find_if(belief.introductions.begin(), belief.introductions.end(),
                     [](const Introduction& one) { return one.kind == IntroductionKind::just_then; });
    ASSERT_NE(found, belief.introductions.end());
    EXPECT_GT(found->behind, 0.9);
    EXPECT_EQ(found->place, known.enclosures.at(EnclosureId("a")));
    EXPECT_EQ(found->entered_p50, known.from);
    ASSERT_EQ(belief.doubts.size(), 1U) << "they hardly fit the rest of the records";
    // Two to ten were seen, each with the chance of the draw: at least two were there.
    const PlaceBelief mites = mites_by_place(belief, known.scenario.places.size())[found->place];
    EXPECT_GE(mites.p10, 2);
    EXPECT_EQ(mites.any, 1);
}

}  // namespace
}  // namespace mitefall::belief
