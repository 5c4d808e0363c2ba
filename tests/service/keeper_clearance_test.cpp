#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "service/clearance.h"
#include "service/course.h"
#include "service/keeper.h"
#include "service/plans.h"
#include "shared/knowledge.h"
#include "store/scratch.h"

// After the course: is it over, where to look next, may the new one leave quarantine? On the demo collection.
namespace mitefall::service {
namespace {

using base::ErrorKind;
using records::AnimalId;
using records::CheckMethod;
using records::EnclosureId;
using units::Day;
using units::Days;

const Day start = units::parse_day("2026-07-01").value();

Now on(Day day) { return {day, units::format_day(day) + "T20:00:00Z"}; }

ClearanceOptions quick(std::size_t draws = 8) {
    ClearanceOptions options;
    options.draws = draws;
    options.rounds = 1;
    options.interval_days = 30;
    return options;
}

class KeeperClearance : public store::Scratch {
  protected:
    KeeperClearance() : keeper_(Keeper::create(at("demo").string(), knowledge()).value()) {
        if (const auto ids = keeper_.record_all(demo_facts(start), on(start)); !ids)
            throw std::runtime_error(ids.error().message());
    }

    void record(records::Fact fact, Day day) {
        if (const auto ids = keeper_.record({std::move(fact)}, day, on(day)); !ids)
            throw std::runtime_error(ids.error().message());
    }

    Keeper keeper_;
};

TEST_F(KeeperClearance, answers_for_every_place_once) {
    const auto answer = keeper_.ask(on(start + Days(3)), clearance_of, quick());
    ASSERT_TRUE(answer) << answer.error().message();
    EXPECT_EQ(answer->last_sighting, start);
    const auto collection = keeper_.collection(start).value();
    std::multiset<EnclosureId> enclosures;
    std::size_t rooms = 0;
    for (const clearance::SureOf& place : answer->places) {
        enclosures.insert(place.enclosures.begin(), place.enclosures.end());
        rooms += place.room.empty() ? 0U : 1U;
        EXPECT_NE(place.enclosures.empty(), place.room.empty());
    }
    EXPECT_EQ(enclosures.size(), collection.enclosures.size());
    EXPECT_EQ(std::set(enclosures.begin(), enclosures.end()).size(), collection.enclosures.size());
    EXPECT_EQ(rooms, collection.rooms.size());
    EXPECT_EQ(answer->places.front().enclosures, std::vector{EnclosureId("a-05")}) << "where they were seen";
    const auto& watched = answer->looked_at;
    EXPECT_NE(std::find(watched.begin(), watched.end(), EnclosureId("a-05")), watched.end());
    EXPECT_EQ(answer->outlook.points.size(), 2U);
}

PlanOptions few_draws() {
    PlanOptions options;
    options.draws = 8;
    options.horizon_days = 28;
    return options;
}

// "Is a mite left today" is asked on the situation screen, by `clear` and at the beginning of a plan's curve;
// "on that day, if nobody looks again" later on the curve and in the outlook. Each has one answer.
TEST_F(KeeperClearance, the_same_question_has_the_same_number_on_a_plans_curve) {
    const Day day = start + Days(8);
    const auto choice = keeper_.ask(on(start), choose_plan, few_draws()).value().choice;
    ASSERT_TRUE(keeper_.adopt(choice.recommended, usual_strength(knowledge()), on(start)));
    ClearanceOptions options = quick();
    options.rounds = 4;
    options.interval_days = 7;
    const auto sure = keeper_.ask(on(day), clearance_of, options).value();
    const auto curve = keeper_.ask(on(day), course_on_record, few_draws()).value();
    ASSERT_EQ(curve.clear.size(), sure.outlook.points.size());
    for (std::size_t i = 0; i < curve.clear.size(); ++i) {
        const clearance::Sureness& told = *sure.outlook.points[i].waited;
        EXPECT_EQ(curve.clear[i].mean, told.clear.mean) << "week " << i;
        EXPECT_EQ(curve.clear[i].p10, told.clear.p10) << "week " << i;
        EXPECT_EQ(curve.clear[i].p90, told.clear.p90) << "week " << i;
    }
    EXPECT_EQ(sure.outlook.points[0].checked.clear.mean, curve.clear[0].mean);
    EXPECT_LT(curve.clear[0].mean, curve.clear[1].mean) << "the round of today comes after the question";
}

TEST_F(KeeperClearance, where_mites_were_seen_today_they_are_today_whatever_was_done) {
    const Day day = start + Days(4);
    const EnclosureId place("a-05");
    record(records::Treated{place, {}, records::Method::spray_bedding, units::milligrams_per_litre(200)},
           day);
    record(records::SubstrateChanged{place, records::Substrate::paper}, day);
    record(records::Sighted{place, records::SeenCount::few, records::SeenWhere::on_paper}, day);
    record(records::Treated{place, {}, records::Method::spray_bedding, units::milligrams_per_litre(200)},
           day);
    const auto clear_of = [&](const clearance::CollectionAnswer& answer) {
        for (const clearance::SureOf& of : answer.places) {
            if (std::find(of.enclosures.begin(), of.enclosures.end(), place) != of.enclosures.end())
                return of.sure.clear.p90;
        }
        return -1.0;
    };
    const auto today = keeper_.ask(on(day), clearance_of, quick()).value();
    EXPECT_EQ(clear_of(today), 0);
    EXPECT_EQ(today.outlook.points[0].checked.clear.p90, 0);
    EXPECT_GT(clear_of(keeper_.ask(on(day + Days(1)), clearance_of, quick()).value()), 0)
        << "what was done counts";
}

// The course treats who lives there now, not who lived there when mites were last seen.
TEST_F(KeeperClearance, knows_who_came_moved_and_left_since_the_sighting) {
    const auto choice = keeper_.ask(on(start), choose_plan, few_draws()).value().choice;
    ASSERT_TRUE(keeper_.adopt(choice.recommended, usual_strength(knowledge()), on(start)));
    const Day day = start + Days(1);
    record(records::AnimalMoved{AnimalId("ada"), EnclosureId("a-02")}, day);
    record(records::AnimalLeft{AnimalId("milo"), "died"}, day);
    record(
        records::AnimalArrived{AnimalId("new"), "New", "corn snake", "a breeder", EnclosureId("a-04"), false},
        day);
    for (const Day asked : {day, day + Days(1)}) {
        EXPECT_TRUE(keeper_.ask(on(asked), clearance_of, quick()));
        EXPECT_TRUE(keeper_.ask(on(asked), next_check_of, quick()));
    }
}

TEST_F(KeeperClearance, proposes_only_checks_the_safety_check_permits) {
    const Day day = start + Days(3);
    const auto answer = keeper_.ask(on(day), next_check_of, quick(64));
    ASSERT_TRUE(answer) << answer.error().message();
    ASSERT_FALSE(answer->checks.empty());
    EXPECT_EQ(answer->checks.front().enclosures, std::vector{EnclosureId("a-05")});
    const auto collection = keeper_.collection(day).value();
    for (const clearance::NextCheck& check : answer->checks) {
        const CheckMethod method = check.value.candidate.method;
        if (method != CheckMethod::soak && method != CheckMethod::wipe) continue;
        for (const EnclosureId& id : check.enclosures) {
            for (const auto* animal : collection.animals_in(id)) {
                const auto verdict =
                    safety::judge(collection, *animal,
                                  method == CheckMethod::soak ? records::Method::soak : records::Method::wipe,
                                  {}, check.day, knowledge().tables, knowledge().taxa, {});
                EXPECT_TRUE(safety::permits(verdict)) << animal->id.text();
            }
        }
    }
}

TEST_F(KeeperClearance, where_a_venomous_snake_lives_only_a_paper_trap_is_proposed) {
    record(records::AnimalArrived{AnimalId("vera"), "Vera", "copperhead", "", EnclosureId("a-05"), false},
           start);
    const auto answer = keeper_.ask(on(start + Days(3)), next_check_of, quick());
    ASSERT_TRUE(answer) << answer.error().message();
    bool is_proposed = false;
    for (const clearance::NextCheck& check : answer->checks) {
        const auto& places = check.enclosures;
        if (std::find(places.begin(), places.end(), EnclosureId("a-05")) == places.end()) continue;
        is_proposed = true;
        EXPECT_EQ(check.value.candidate.method, CheckMethod::paper_trap);
    }
    EXPECT_TRUE(is_proposed);
}

// Where the animal may not be taken out, the likeliest place is still looked at in other ways.
TEST_F(KeeperClearance, leaves_a_sick_animal_in_its_enclosure) {
    const Day day = start + Days(3);
    const auto collection = keeper_.collection(day).value();
    const auto animals = collection.animals_in(EnclosureId("a-05"));
    ASSERT_FALSE(animals.empty());
    for (const auto condition : {records::Condition::sick, records::Condition::neurological})
        record(records::ConditionNoted{animals.front()->id, condition, true, "", ""}, day);
    const auto answer = keeper_.ask(on(day), next_check_of, quick(64)).value();
    EXPECT_EQ(answer.checks.front().enclosures, std::vector{EnclosureId("a-05")});
    for (const clearance::NextCheck& check : answer.checks) {
        if (check.enclosures.front() == EnclosureId("a-05")) {
            EXPECT_NE(check.value.candidate.method, CheckMethod::soak);
            EXPECT_NE(check.value.candidate.method, CheckMethod::wipe);
        }
    }
}

// With nothing seen lately the question is what may have come in unseen: of a show that is the chance of its
// row, one enclosure for each room it may have reached, and a look there makes surer.
TEST_F(KeeperClearance, without_a_sighting_tells_what_may_have_come_in_unseen) {
    const Day late = start + Days(200);
    const auto before = keeper_.ask(on(late), clearance_of, quick());
    ASSERT_TRUE(before) << before.error().message();
    EXPECT_FALSE(before->last_sighting);
    const EnclosureId reached("a-05");
    record(records::OutsideContact{records::OutsideKind::animal_held, {}, {reached}, ""}, late);
    const auto after = keeper_.ask(on(late), clearance_of, quick());
    ASSERT_TRUE(after) << after.error().message();
    EXPECT_EQ(std::count(after->looked_at.begin(), after->looked_at.end(), reached), 1);
    const auto sure = [](const auto& answer) { return answer->outlook.points.front().checked.clear.mean; };
    EXPECT_LT(sure(after), sure(before));
    EXPECT_EQ(after->places.front().enclosures, std::vector{reached}) << "least sure first, told apart";
    const auto next = keeper_.ask(on(late), next_check_of, quick());
    ASSERT_TRUE(next) << next.error().message();
    EXPECT_FALSE(next->last_sighting);
    EXPECT_GE(next->checks.front().value.if_clean.clear.mean, next->checks.front().value.before.clear.mean);
}

TEST_F(KeeperClearance, quarantine_never_ends_before_the_usual_minimum) {
    const auto answer = keeper_.ask(on(start), release_of, AnimalId("otto"), quick());
    ASSERT_TRUE(answer) << answer.error().message();
    EXPECT_EQ(answer->usual_from, answer->arrived + Days(60));
    for (const auto& reached : answer->release.no_sooner) {
        EXPECT_GE(reached.at_mean.value_or(60), 60);
        EXPECT_GE(reached.at_cautious.value_or(60), 60);
    }
}

TEST_F(KeeperClearance, a_clean_check_in_quarantine_counts) {
    const Day day = start + Days(1);
    const auto before = keeper_.ask(on(day), release_of, AnimalId("otto"), quick()).value();
    const EnclosureId home = keeper_.collection(day)->animals.at(AnimalId("otto")).enclosure;
    record(records::Checked{home, CheckMethod::look_over, records::SeenCount::none}, day);
    const auto after = keeper_.ask(on(day), release_of, AnimalId("otto"), quick()).value();
    EXPECT_EQ(after.clean_checks, before.clean_checks + 1);
    EXPECT_LT(after.release.points.front().none.risk.mean, before.release.points.front().none.risk.mean);
}

TEST_F(KeeperClearance, release_is_refused_where_it_makes_no_sense) {
    EXPECT_EQ(keeper_.ask(on(start), release_of, AnimalId("nobody"), quick()).error().kind,
              ErrorKind::not_found);
    EXPECT_EQ(keeper_.ask(on(start), release_of, AnimalId("juno"), quick()).error().kind,
              ErrorKind::conflict);
    const EnclosureId home = keeper_.collection(start)->animals.at(AnimalId("otto")).enclosure;
    record(records::Sighted{home, records::SeenCount::one, records::SeenWhere::on_animal}, start);
    const auto seen = keeper_.ask(on(start), release_of, AnimalId("otto"), quick());
    ASSERT_FALSE(seen);
    EXPECT_EQ(seen.error().kind, ErrorKind::conflict);
    EXPECT_NE(seen.error().what.find("1 Jul 2026"), std::string::npos);
}

// Who came after the last sighting lives in the enclosure like the others when the course goes on.
TEST_F(KeeperClearance, an_animal_that_came_after_the_sighting_does_not_stop_the_answer) {
    record(records::AnimalArrived{AnimalId("ivy"), "Ivy", "ball python", "", EnclosureId("a-05"), false},
           start + Days(1));
    PlanOptions options;
    options.draws = 8;
    const auto planned = keeper_.ask(on(start + Days(1)), choose_plan, options);
    ASSERT_TRUE(planned) << planned.error().message();
    ASSERT_TRUE(keeper_.adopt(planned->choice.recommended, planned->setting.strength, on(start + Days(1))));
    const auto answer = keeper_.ask(on(start + Days(2)), clearance_of, quick());
    ASSERT_TRUE(answer) << answer.error().message();
    EXPECT_TRUE(answer->course_goes_on);
}

TEST_F(KeeperClearance, stops_when_told_to) {
    ClearanceOptions options = quick();
    options.progress = [](double) { return false; };
    EXPECT_EQ(keeper_.ask(on(start), clearance_of, options).error().kind, ErrorKind::conflict);
    EXPECT_EQ(keeper_.ask(on(start), release_of, AnimalId("otto"), options).error().kind,
              ErrorKind::conflict);
}

// A second find in a tub full of them puts a tenth of what is possible beyond every course. The low ends tell
// nothing then, the mean does: a search that looked at low ends alone recommended one round where mites were
// seen.
TEST_F(KeeperClearance, a_plan_is_looked_for_where_no_course_has_a_low_end) {
    record(records::Sighted{EnclosureId("a-07"), records::SeenCount::few, records::SeenWhere::in_water},
           start);
    PlanOptions options;
    options.draws = 64;
    const auto planned = keeper_.ask(on(start), choose_plan, options).value();
    const plan::PlanChoice& choice = planned.choice;
    const auto rungs = each_round_of(planned, choice.recommended, {}).value();
    for (const plan::Rung& rung : rungs)
        EXPECT_LE(rung.clear.mean, choice.recommended.clear.mean + 0.02) << rung.rounds;
    EXPECT_GT(choice.recommended.course.rounds, 1);
}

}  // namespace
}  // namespace mitefall::service
