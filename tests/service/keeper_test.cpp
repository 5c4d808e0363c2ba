#include "service/keeper.h"

#include <gtest/gtest.h>

#include <set>

#include "few.h"
#include "records/journal.h"
#include "service/adopted.h"
#include "service/clearance.h"
#include "service/matters.h"
#include "service/origin.h"
#include "service/plans.h"
#include "service/rescore.h"
#include "service/worklist.h"
#include "shared/knowledge.h"
#include "store/scratch.h"

namespace mitefall::service {
namespace {

base::Result<exposure::Tracing> traced(const Situation& today) { return today.tracing(); }

using records::day;
using records::EnclosureId;
using units::Day;

/// Two tubs in one room and their snakes, nothing else on record.
class KeeperFile : public store::Scratch {
  protected:
    KeeperFile() {
        for (const records::Entry& entry : records::small_collection().entries) put(entry.day, entry.fact);
    }

    void put(Day when, const records::Fact& fact) {
        const auto ids = keeper.record({fact}, when, on(when));
        if (!ids) throw std::runtime_error(ids.error().message());
    }

    static Now on(Day today) { return {today, units::format_day(today) + "T20:00:00Z"}; }

    Keeper keeper = Keeper::create(at("c").string(), knowledge()).value();
};

TEST_F(KeeperFile, without_a_plan_there_is_no_work) {
    const auto list = keeper.ask(on(day(3, 1)), worklist_of);
    ASSERT_FALSE(list);
    EXPECT_EQ(list.error().kind, base::ErrorKind::not_found);
    EXPECT_NE(list.error().what.find("no plan"), std::string::npos);
}

TEST_F(KeeperFile, without_a_plan_a_dish_is_still_asked_for) {
    put(day(3, 1), records::WaterMoved{EnclosureId("b"), true});
    EXPECT_TRUE(keeper.ask(on(day(3, 2)), worklist_of)) << "nothing is wet: at once";
    const auto list = keeper.ask(on(day(3, 4)), worklist_of);
    ASSERT_TRUE(list) << list.error().message();
    ASSERT_EQ(list->tasks.size(), 1U);
    EXPECT_EQ(list->tasks[0].kind, worklist::TaskKind::water_back);
    EXPECT_EQ(list->tasks[0].enclosure, EnclosureId("b"));
}

TEST_F(KeeperFile, a_dish_put_back_without_a_plan_is_back) {
    put(day(3, 1), records::WaterMoved{EnclosureId("b"), true});
    ASSERT_TRUE(keeper.tick({"2026-03-04/water-back/b"}, on(day(3, 4))));
    EXPECT_FALSE(keeper.collection(day(3, 4))->enclosures.at(EnclosureId("b")).water_is_out);
    EXPECT_EQ(keeper.ask(on(day(3, 4)), worklist_of)->tasks.at(0).state, worklist::TaskState::done);
    EXPECT_FALSE(keeper.ask(on(day(3, 5)), worklist_of));
}

TEST_F(KeeperFile, origin_works_with_and_without_anything_seen) {
    const auto before = keeper.ask(on(day(3, 1)), origin_of, Draws{8, 1}, Situation::Progress());
    ASSERT_TRUE(before) << before.error().message();
    EXPECT_FALSE(before->believed->belief.sighted);
    EXPECT_GT(before->believed->belief.nothing_came, 0.5);
    put(day(3, 1),
        records::Checked{EnclosureId("a"), records::CheckMethod::look_over, records::SeenCount::none});
    EXPECT_EQ(
        keeper.ask(on(day(3, 5)), origin_of, Draws{8, 1}, Situation::Progress())->believed->belief.looks, 1U);
    put(day(3, 2),
        records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal});
    const auto after = keeper.ask(on(day(3, 5)), origin_of, Draws{8, 1}, Situation::Progress());
    EXPECT_TRUE(after->believed->belief.sighted);
    EXPECT_EQ(after->believed->belief.looks, 2U);
    EXPECT_EQ(after->believed->belief.nothing_came, 0);
}

TEST_F(KeeperFile, origin_without_an_enclosure_says_what_to_do) {
    const auto empty = Keeper::create(at("empty").string(), knowledge()).value();
    const auto answer = empty.ask(on(day(3, 1)), origin_of, Draws{8, 1}, Situation::Progress());
    ASSERT_FALSE(answer);
    EXPECT_EQ(answer.error().kind, base::ErrorKind::not_found);
}

TEST_F(KeeperFile, a_treated_room_raises_the_chance) {
    put(day(3, 1),
        records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal});
    put(day(3, 1), records::Weighed{records::AnimalId("pim"), units::grams(900)});
    put(day(3, 1), records::PlanAdopted{
                       {day(3, 1)}, {EnclosureId("a")}, {}, {true, false}, units::milligrams_per_litre(10)});
    PlanOptions options;
    options.draws = 8;
    const double before = keeper.ask(on(day(3, 5)), rescore, options)->clear.mean;
    put(day(3, 5), records::RoomTreated{records::RoomId("snakes"), units::milligrams_per_litre(5000)});
    EXPECT_GT(keeper.ask(on(day(3, 5)), rescore, options)->clear.mean, before);
}

TEST_F(KeeperFile, an_adopted_course_of_soaks_is_soaked_by_its_worklist) {
    put(day(3, 1),
        records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal});
    put(day(3, 1), records::Weighed{records::AnimalId("pim"), units::grams(900)});
    PlanOptions options;
    options.draws = 8;
    auto planned = keeper.ask(on(day(3, 1)), choose_plan, options);
    ASSERT_TRUE(planned);
    plan::Setting& setting = planned->setting;
    plan::ScoredPlan plan{{2, 7, {true, false, true}, plan::Scope::sighted, false}, {}, {}};
    plan.schedule = plan::fit(plan::assign(plan.course, setting), setting);
    const auto methods_on = [&](Day when) {
        std::multiset<records::Method> methods;
        const auto list = keeper.ask(on(when), worklist_of);
        if (!list) throw std::runtime_error(list.error().message());
        for (const worklist::Task& task : list->tasks) {
            if (task.treatment && !task.animals.empty()) methods.insert(task.treatment->method());
        }
        return methods;
    };
    ASSERT_TRUE(keeper.adopt(plan, setting.strength, on(day(3, 1))));
    // Whoever asks the file finds the course as it was chosen: soaked, and nowhere sprayed.
    const auto course = keeper.ask(on(day(3, 4)), adopted_course);
    ASSERT_TRUE(course);
    EXPECT_EQ(course->day, day(3, 1));
    EXPECT_EQ(course->value.terms.scope, "sighted");
    std::size_t planned_treatments = 0;
    for (const plan::Round& round : plan.schedule.rounds) planned_treatments += round.treatments.size();
    EXPECT_EQ(course->value.terms.treatments.size(), planned_treatments);
    std::multiset<records::Method> decided;
    for (const auto& treatment : course->value.terms.treatments) decided.insert(treatment.method);
    EXPECT_EQ(decided.count(records::Method::soak), 2U);
    EXPECT_EQ(decided.count(records::Method::spray_animal), 0U);
    EXPECT_EQ(methods_on(day(3, 1)).count(records::Method::soak), 1U);
    EXPECT_EQ(methods_on(day(3, 1)).count(records::Method::spray_animal), 0U);
    EXPECT_EQ(methods_on(day(3, 8)).count(records::Method::soak), 1U);
    ASSERT_TRUE(keeper.tick({"2026-03-01/animal/pim"}, on(day(3, 1))));
    const auto& given = keeper.collection(day(3, 1))->animals.at(records::AnimalId("pim")).treatments;
    ASSERT_EQ(given.size(), 1U);
    EXPECT_EQ(given.front().value.method, records::Method::soak);
}

// Exposure tracing looks back on 60 days, an outbreak is followed for three times as long.
class OldSighting : public KeeperFile {
  protected:
    OldSighting() {
        put(seen, records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal});
        put(seen, records::Weighed{records::AnimalId("pim"), units::grams(900)});
    }

    void adopt() {
        put(seen, records::PlanAdopted{
                      {seen}, {EnclosureId("a")}, {}, {true, false}, units::milligrams_per_litre(10)});
    }

    const Day seen = day(3, 1);
};

TEST_F(OldSighting, is_planned_for_as_long_as_the_outbreak_is_followed) {
    for (const int age : {59, 60, 61, 90, 180}) {
        const auto planned = keeper.ask(on(seen + units::Days(age)), choose_plan, few_draws());
        ASSERT_TRUE(planned) << age << ": " << planned.error().message();
        const plan::ScoredPlan& best = planned->choice.recommended;
        EXPECT_GT(best.clear.mean, 0) << age;
        EXPECT_FALSE(best.schedule.assignment.enclosures.empty()) << age;
        EXPECT_EQ(planned->setting.known.time_of(seen), planned->setting.known.from) << age;
    }
}

TEST_F(OldSighting, every_answer_about_the_outbreak_goes_on) {
    adopt();
    const auto plain = keeper.ask(on(seen + units::Days(60)), clearance_of, few_looks()).value();
    for (const int age : {61, 180}) {
        const Now now = on(seen + units::Days(age));
        const auto answer = keeper.ask(now, clearance_of, few_looks());
        ASSERT_TRUE(answer) << age << ": " << answer.error().message();
        EXPECT_EQ(answer->last_sighting, seen);
        EXPECT_EQ(answer->places.size(), plain.places.size());
        EXPECT_EQ(answer->looked_at, plain.looked_at);
        EXPECT_TRUE(keeper.ask(now, next_check_of, few_looks())) << age;
        EXPECT_TRUE(keeper.ask(now, rescore, few_draws())) << age;
        EXPECT_TRUE(keeper.ask(now, what_matters, few_draws())) << age;
    }
}

TEST_F(OldSighting, is_traced_as_on_the_last_day_that_looked_back_to_it) {
    const auto last = keeper.ask(on(seen + units::Days(60)), traced).value();
    EXPECT_EQ(last.to, seen + units::Days(60));
    const auto later = keeper.ask(on(seen + units::Days(100)), traced);
    ASSERT_TRUE(later) << later.error().message();
    EXPECT_EQ(later->to, last.to);
    ASSERT_EQ(later->exposed.size(), last.exposed.size());
    for (std::size_t i = 0; i < last.exposed.size(); ++i) {
        EXPECT_EQ(later->exposed[i].enclosure, last.exposed[i].enclosure);
        EXPECT_EQ(later->exposed[i].chance, last.exposed[i].chance);
    }
    EXPECT_TRUE(later->exposed.front().sighted);
}

TEST_F(OldSighting, is_of_another_outbreak_after_three_times_the_days_traced) {
    const auto answer = keeper.ask(on(seen + units::Days(181)), choose_plan, few_draws());
    ASSERT_FALSE(answer);
    EXPECT_EQ(answer.error().kind, base::ErrorKind::not_found);
    EXPECT_NE(answer.error().what.find("1 Mar 2026"), std::string::npos) << answer.error().what;
    // How sure one may be is told of what may have come in since.
    EXPECT_EQ(keeper.ask(on(seen + units::Days(181)), clearance_of, few_looks()).value().last_sighting,
              std::nullopt);
}

TEST_F(KeeperFile, entries_are_taken_back_together_or_not_at_all) {
    put(day(3, 1), records::Weighed{records::AnimalId("pim"), units::grams(700)});
    put(day(3, 2), records::Weighed{records::AnimalId("pim"), units::grams(710)});
    const auto journal = keeper.journal().value();
    const records::FactId last = journal.back().id;
    EXPECT_EQ(keeper.withdraw({last, 999}, "", on(day(3, 3))).error().kind, base::ErrorKind::not_found);
    EXPECT_EQ(keeper.journal()->size(), journal.size()) << "nothing was written";
    const auto taken = keeper.withdraw({last - 1, last}, "wrong scale", on(day(3, 3)));
    ASSERT_TRUE(taken) << taken.error().message();
    EXPECT_EQ(taken->size(), 2U);
    const auto again = keeper.withdraw({last}, "", on(day(3, 3)));
    EXPECT_EQ(again.error().kind, base::ErrorKind::conflict) << "out of force already";
    const auto entries = keeper.journal().value();
    EXPECT_EQ(entries.size(), journal.size() + 2);
    EXPECT_EQ(std::get<records::Withdrawn>(entries.back().fact).reason, "wrong scale");
}

TEST_F(KeeperFile, facts_can_be_tried_without_writing_them) {
    const auto before = keeper.journal()->size();
    const std::vector<DatedFact> good{
        {day(3, 1), records::Weighed{records::AnimalId("pim"), units::grams(700)}}};
    EXPECT_TRUE(keeper.would_accept(good, on(day(3, 1))));
    EXPECT_FALSE(keeper.would_accept(good, on(day(2, 1)))) << "of the future";
    EXPECT_EQ(keeper.journal()->size(), before);
}

TEST_F(KeeperFile, a_copy_has_all_of_it_and_takes_no_place_of_another) {
    const std::string copy = at("copy").string();
    ASSERT_TRUE(keeper.copy_to(copy));
    EXPECT_EQ(keeper.copy_to(copy).error().kind, base::ErrorKind::already_exists);
    EXPECT_EQ(keeper.copy_to(at("no/such/folder").string()).error().kind, base::ErrorKind::not_found);
    const auto other = Keeper::open(copy, knowledge());
    ASSERT_TRUE(other) << other.error().message();
    EXPECT_EQ(*other->journal(), *keeper.journal());
}

TEST_F(KeeperFile, sees_what_another_program_writes) {
    auto other = Keeper::open(at("c").string(), knowledge()).value();
    const auto before = keeper.journal()->size();
    ASSERT_TRUE(other.record({records::Weighed{records::AnimalId("pim"), units::grams(700)}}, day(3, 1),
                             on(day(3, 1))));
    EXPECT_EQ(keeper.journal()->size(), before + 1);
}

TEST_F(KeeperFile, a_sighting_shows_at_a_glance) {
    put(day(3, 1), records::Sighted{EnclosureId("a")});
    const auto overview = keeper.ask(on(day(3, 1)), overview_of);
    ASSERT_TRUE(overview) << overview.error().message();
    EXPECT_EQ(overview->last_sighting, day(3, 1));
    EXPECT_EQ(overview->rooms.at(0).enclosures.at(0).danger, worklist::Danger::sighted);
    EXPECT_EQ(overview->due, 0) << "no plan yet";
}

}  // namespace
}  // namespace mitefall::service
