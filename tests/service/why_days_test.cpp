#include "service/why_days.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "service/few.h"
#include "service/plans.h"
#include "service/procedure.h"
#include "service/rescore.h"
#include "shared/knowledge.h"
#include "store/scratch.h"

namespace mitefall::service {
namespace {

using records::AnimalId;
using records::EnclosureId;
using units::Day;
using units::Days;

const Day today = units::parse_day("2026-11-25").value();
const Now now{today, "2026-11-25T20:00:00Z"};

class WhyDays : public store::Scratch {
  protected:
    /// A warm tub with mites and a cool one beside it, both lived in; a third is empty and warmer still.
    Keeper den() {
        auto keeper = Keeper::create(at("den").string(), knowledge()).value();
        const Day begin = units::parse_day("2026-01-01").value();
        const records::Climate air{units::celsius(24), units::celsius(22),
                                   units::relative_humidity_percent(60)};
        const auto tub = [&](const char* id, double celsius) {
            const records::Climate climate{units::celsius(celsius), units::celsius(celsius),
                                           units::relative_humidity_percent(60)};
            return records::EnclosureAdded{
                EnclosureId(id),           id,      records::RoomId("den"),         records::Material::sealed,
                records::Substrate::paper, climate, units::square_centimetres(2500)};
        };
        std::vector<DatedFact> facts{
            {begin,
             records::RoomAdded{records::RoomId("den"), "den", air, {}, units::square_centimetres(90000)}},
            {begin, tub("warm", 30)},
            {begin, tub("cool", 23)},
            {begin, tub("empty", 32)},
            {begin, records::AnimalArrived{AnimalId("ivy"), "ivy", "corn snake", "", EnclosureId("warm")}},
            {begin, records::AnimalArrived{AnimalId("moss"), "moss", "corn snake", "", EnclosureId("cool")}},
            {today, records::Weighed{AnimalId("ivy"), units::grams(900)}},
            {today, records::Weighed{AnimalId("moss"), units::grams(700)}},
            {today,
             records::Sighted{EnclosureId("warm"), records::SeenCount::few, records::SeenWhere::on_animal}}};
        const auto ids = keeper.record_all(facts, now);
        if (!ids) throw std::runtime_error(ids.error().message());
        return keeper;
    }

    static PlanOptions few() {
        PlanOptions options;
        options.draws = 16;
        return options;
    }

    static service::WhyDays told(const Planned& planned, WhyDaysOptions options = {}) {
        options.draws = 16;
        auto answer = why_days_of(*planned.situation, planned.setting,
                                  planned.choice.recommended.schedule.assignment, options);
        if (!answer) throw std::runtime_error(answer.error().message());
        return std::move(*answer);
    }

    static WhyDaysOptions on(std::vector<Day> days) {
        WhyDaysOptions options;
        options.days = std::move(days);
        return options;
    }

    static base::Error refused(const Planned& planned, WhyDaysOptions options) {
        options.draws = 16;
        return why_days_of(*planned.situation, planned.setting,
                           planned.choice.recommended.schedule.assignment, options)
            .error();
    }
};

TEST_F(WhyDays, the_warmest_and_the_coldest_that_is_lived_in_are_told_with_the_chance_of_the_plan) {
    const auto keeper = den();
    const auto planned = keeper.ask(now, choose_plan, few()).value();
    const auto view = told(planned).view;
    ASSERT_EQ(view.enclosures.size(), 2U);
    EXPECT_EQ(view.enclosures[0].enclosure, EnclosureId("warm"));
    EXPECT_EQ(view.enclosures[1].enclosure, EnclosureId("cool"));
    EXPECT_NEAR(view.clear.mean, planned.choice.recommended.clear.mean, 1e-9);
    EXPECT_EQ(view.rounds, planned.choice.recommended.schedule.assignment.rounds);
    for (std::size_t s = 0; s < mites::life_stage_total; ++s)
        EXPECT_LT(view.enclosures[0].lasts.at(s)->mean, view.enclosures[1].lasts.at(s)->mean);
    EXPECT_FALSE(view.enclosures[0].checks.empty());
    EXPECT_GT(view.enclosures[0].checks.front().day, view.rounds.back());
}

TEST_F(WhyDays, what_passes_under_a_round_and_what_it_catches_are_what_was_there_before) {
    const auto keeper = den();
    const auto view = told(keeper.ask(now, choose_plan, few()).value()).view;
    for (const formats::StripGate& gate : view.enclosures[0].gates) {
        double before = 0, after = 0;
        for (std::size_t c = 0; c < gate.before.size(); ++c) {
            before = std::accumulate(gate.before.at(c).begin(), gate.before.at(c).end(), before);
            after = std::accumulate(gate.after.at(c).begin(), gate.after.at(c).end(), after);
        }
        EXPECT_NEAR(gate.caught.mean, before - after, 1e-9);
        EXPECT_LE(gate.passed.mean, after + 1e-9);
    }
}

TEST_F(WhyDays, a_round_moved_by_a_day_has_the_chance_of_the_course_that_is_adopted_on_these_days) {
    auto keeper = den();
    const auto planned = keeper.ask(now, choose_plan, few()).value();
    WhyDaysOptions options;
    options.days = planned.choice.recommended.schedule.assignment.rounds;
    ASSERT_GE(options.days.size(), 2U);
    for (Day& day : options.days) {
        if (day != options.days.front()) day += Days(1);
    }
    const auto moved = told(planned, options);
    EXPECT_EQ(moved.view.rounds, options.days);
    const plan::ScoredPlan plan{planned.choice.recommended.course, moved.schedule, moved.view.clear};
    ASSERT_TRUE(keeper.adopt(plan, planned.setting.strength, now));
    const auto scored = keeper.ask(now, rescore, few()).value();
    EXPECT_NEAR(scored.clear.mean, moved.view.clear.mean, 1e-9);
    WhyDaysOptions adopted;
    adopted.draws = 16;
    const auto on_record = keeper.ask(now, why_days_on_record, adopted).value();
    EXPECT_EQ(on_record.view.rounds, options.days);
    EXPECT_NEAR(on_record.view.clear.mean, moved.view.clear.mean, 1e-9);
}

TEST_F(WhyDays, an_adopted_course_goes_on_record_on_the_days_that_were_tried_and_by_the_safety_check) {
    auto keeper = den();
    const auto planned = keeper.ask(now, choose_plan, few()).value();
    ASSERT_TRUE(keeper.adopt(planned.choice.recommended, planned.setting.strength, now));
    auto days = planned.choice.recommended.schedule.assignment.rounds;
    ASSERT_GE(days.size(), 2U);
    for (Day& day : days) {
        if (day != days.front()) day += Days(2);
    }
    WhyDaysOptions options = on(days);
    options.draws = 16;
    const auto tried = keeper.ask(now, why_days_on_record, options).value();
    const auto seen = keeper.put_to_days(days, now);
    ASSERT_TRUE(seen);
    const auto standing = *keeper.situation(today).value()->collection().plan;
    EXPECT_EQ(standing.value.rounds, days);
    EXPECT_TRUE(standing.value.continues);
    // What is on record is what was looked at: every treatment of the rounds, and the same chance.
    std::size_t treatments = 0;
    for (const plan::Round& round : tried.schedule.rounds) treatments += round.treatments.size();
    EXPECT_EQ(standing.value.terms.treatments.size(), treatments);
    const auto scored = keeper.ask(now, rescore, few()).value();
    EXPECT_NEAR(scored.clear.mean, tried.view.clear.mean, 1e-9);
    // Another one was adopted since: whoever looked before that has not seen it.
    EXPECT_EQ(keeper.put_to_days(days, now, *seen - 1).error().kind, base::ErrorKind::conflict);
    days[1] = days[0] + Days(1);
    EXPECT_EQ(keeper.put_to_days(days, now).error().what, "two rounds are too close");
}

TEST_F(WhyDays, no_days_are_put_on_record_where_no_course_is_adopted) {
    auto keeper = den();
    EXPECT_EQ(keeper.put_to_days({today}, now).error().kind, base::ErrorKind::not_found);
}

TEST_F(WhyDays, days_that_are_no_such_course_are_refused_and_say_why) {
    const auto keeper = den();
    const auto planned = keeper.ask(now, choose_plan, few()).value();
    const auto rounds = planned.choice.recommended.schedule.assignment.rounds;
    ASSERT_GE(rounds.size(), 2U);
    EXPECT_EQ(refused(planned, on({today})).what, "a day for every round still to come is needed");
    auto early = rounds;
    early.front() = today - Days(1);
    EXPECT_EQ(refused(planned, on(early)).what, "a round cannot be put to that day");
    auto close = rounds;
    close[1] = close[0] + Days(1);
    EXPECT_EQ(refused(planned, on(close)).what, "two rounds are too close");
    WhyDaysOptions elsewhere;
    elsewhere.enclosure = "nowhere";
    EXPECT_EQ(refused(planned, elsewhere).kind, base::ErrorKind::not_found);
}

TEST_F(WhyDays, of_an_enclosure_that_is_named_alone_and_cancelled_where_nobody_waits) {
    const auto keeper = den();
    const auto planned = keeper.ask(now, choose_plan, few()).value();
    WhyDaysOptions options;
    options.enclosure = "cool";
    EXPECT_EQ(told(planned, options).view.enclosures.size(), 1U);
    options.progress = [](double) { return false; };
    EXPECT_EQ(refused(planned, options).kind, base::ErrorKind::conflict);
}

TEST_F(WhyDays, looks_and_a_second_course_are_worth_no_less_than_the_course_alone) {
    const auto keeper = den();
    const auto planned = keeper.ask(now, choose_plan, few()).value();
    const auto told =
        procedure_of(*planned.situation, planned.setting, planned.choice.recommended.schedule, few());
    ASSERT_TRUE(told);
    EXPECT_LE(told->looks.size(), procedure_looks);
    EXPECT_GT(told->looks.front(), planned.choice.recommended.schedule.assignment.rounds.back());
    EXPECT_GE(told->whole.mean, told->once.mean);
    EXPECT_GE(told->once.mean, planned.choice.recommended.clear.mean - 1e-6) << "later nothing comes back";
    EXPECT_EQ(told->by, told->looks.back() + Days(84));
}

}  // namespace
}  // namespace mitefall::service
