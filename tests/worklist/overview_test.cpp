#include "worklist/overview.h"

#include <gtest/gtest.h>

#include "exposure/paths.h"
#include "records/journal.h"
#include "words/words.h"

namespace mitefall::worklist {
namespace {

using records::day;
using records::EnclosureId;

/// Two tubs in one room and their snakes, and what is put there besides.
class AtAGlance : public testing::Test {
  protected:
    void put(units::Day when, records::Fact fact) {
        journal.push_back({static_cast<records::FactId>(journal.size() + 1), when, "", std::move(fact), {}});
    }
    Overview look(const exposure::Tracing& tracing = {}, const Worklist& list = {}) const {
        return look_over(journal, records::collection_on(journal, day(3, 10)), tracing, list, 0.02);
    }
    static const EnclosureAtAGlance& glance(const Overview& overview, const char* enclosure) {
        for (const RoomAtAGlance& room : overview.rooms) {
            for (const EnclosureAtAGlance& one : room.enclosures) {
                if (one.enclosure == EnclosureId(enclosure)) return one;
            }
        }
        throw std::runtime_error("no such enclosure");
    }

    std::vector<records::Entry> journal = records::small_collection().entries;
};

TEST_F(AtAGlance, shows_every_enclosure_even_without_anything_to_tell) {
    const Overview overview = look();
    EXPECT_EQ(overview.day, day(3, 10));
    EXPECT_FALSE(overview.plan || overview.last_sighting || overview.next_day);
    EXPECT_EQ(glance(overview, "a").danger, Danger::healthy);
    EXPECT_FALSE(glance(overview, "a").exposure || glance(overview, "a").last_checked);
    EXPECT_EQ(glance(overview, "a").animals.size(), 1U);
}

TEST_F(AtAGlance, the_last_look_counts_whether_or_not_it_found_anything) {
    put(day(3, 5), records::Checked{EnclosureId("a")});
    put(day(3, 2), records::Checked{EnclosureId("a")});
    put(day(3, 7), records::Sighted{EnclosureId("b")});
    const Overview overview = look();
    EXPECT_EQ(glance(overview, "a").last_checked, day(3, 5));
    EXPECT_EQ(glance(overview, "b").last_checked, day(3, 7));
    EXPECT_EQ(overview.last_sighting, day(3, 7));
}

TEST_F(AtAGlance, a_withdrawn_look_never_was) {
    put(day(3, 5), records::Checked{EnclosureId("a")});
    put(day(3, 5), records::Withdrawn{"the other tub"});
    journal.back().corrects = journal[journal.size() - 2].id;
    EXPECT_FALSE(glance(look(), "a").last_checked);
}

TEST_F(AtAGlance, danger_follows_the_chance_of_exposure) {
    exposure::Tracing tracing;
    tracing.exposed = {
        {EnclosureId("a"), 1, {}, true, {}},
        {EnclosureId("b"), 0.019, {}, false, exposure::tells::no_contact(day(3, 1), day(3, 9))}};
    Overview overview = look(tracing);
    EXPECT_EQ(glance(overview, "a").danger, Danger::sighted);
    EXPECT_EQ(glance(overview, "b").danger, Danger::healthy);
    EXPECT_EQ(glance(overview, "b").exposure, 0.019);
    EXPECT_EQ(glance(overview, "b").exposed_by.id, exposure::tells::no_contact.id);
    tracing.exposed[1].chance = 0.02;
    EXPECT_EQ(glance(look(tracing), "b").danger, Danger::exposed);
}

class Listed {
  public:
    void add(const char* enclosure, TaskKind kind, TaskState state, units::Day planned = day(3, 10)) {
        Task task;
        task.enclosure = EnclosureId(enclosure);
        task.kind = kind;
        task.state = state;
        task.planned = planned;
        list.tasks.push_back(task);
    }

    Worklist list;
};

TEST_F(AtAGlance, counts_tasks_by_enclosure_and_in_all) {
    Listed listed;
    Worklist& list = listed.list;
    const auto add = [&](const char* enclosure, TaskKind kind, TaskState state) {
        listed.add(enclosure, kind, state);
    };
    add("a", TaskKind::treat, TaskState::open);
    add("a", TaskKind::water_out, TaskState::done);
    add("a", TaskKind::hygiene, TaskState::open);
    add("b", TaskKind::check, TaskState::skipped);
    add("", TaskKind::mix, TaskState::open);
    list.next_day = day(3, 13);
    const Overview overview = look({}, list);
    EXPECT_EQ(glance(overview, "a").due, 1) << "gloves are no task";
    EXPECT_EQ(glance(overview, "a").done, 1);
    EXPECT_EQ(glance(overview, "b").due, 0) << "skipped is not due";
    EXPECT_EQ(overview.due, 2);
    EXPECT_EQ(overview.done, 1);
    EXPECT_EQ(overview.next_day, day(3, 13));
}

TEST_F(AtAGlance, a_round_is_over_once_nothing_of_it_is_left) {
    put(day(3, 1), records::PlanAdopted{{day(3, 2), day(3, 6), day(3, 10), day(3, 14)},
                                        {EnclosureId("a")},
                                        {},
                                        {false, false},
                                        units::milligrams_per_litre(10)});
    Listed of;
    of.add("a", TaskKind::treat, TaskState::open);
    of.list.late.rounds.push_back({2, 4, day(3, 6), 1, 1});
    EXPECT_EQ(look({}, of.list).rounds_over, 1) << "one is late, one is begun, one is to come";
    of.list.late = {};
    EXPECT_EQ(look({}, of.list).rounds_over, 2);
    of.list.tasks.front().state = TaskState::skipped;
    EXPECT_EQ(look({}, of.list).rounds_over, 3);
}

TEST(WorkToCome, is_summed_up_by_kind_in_working_order) {
    Listed of;
    of.add("", TaskKind::hygiene, TaskState::open);
    of.add("a", TaskKind::check, TaskState::open);
    of.add("a", TaskKind::water_out, TaskState::done);
    of.add("b", TaskKind::water_back, TaskState::open);
    of.add("b", TaskKind::check, TaskState::open);
    const auto kinds = sum_up(of.list);
    ASSERT_EQ(kinds.size(), 2U) << "gloves are no task, and what is done is done";
    EXPECT_EQ(kinds[0].kind, TaskKind::check);
    EXPECT_EQ(kinds[0].tasks, 2);
    EXPECT_EQ(kinds[1].kind, TaskKind::water_back);
    EXPECT_EQ(kinds[1].tasks, 1);
}

TEST(AdoptedPlan, is_told_in_words) {
    records::PlanAdopted plan;
    plan.rounds = {day(3, 13), day(3, 10)};
    plan.enclosures = {EnclosureId("a")};
    plan.rooms = {records::RoomId("r"), records::RoomId("s")};
    plan.choices.change_substrate = plan.choices.keep_damp = true;
    EXPECT_EQ(words::say(tell(plan)),
              "2 rounds from 10 Mar 2026 to 13 Mar 2026, 1 enclosure, floor and racks of 2 rooms, substrate "
              "changed each round, paper kept damp with the spray");
    EXPECT_EQ(words::say(tell(records::PlanAdopted{{day(3, 10)}, {}, {}, {false, false}, {}})),
              "1 round on 10 Mar 2026, 0 enclosures");
}

// The switches are what was asked; with the terms on record only what they hold is told.
TEST(AdoptedPlan, is_told_by_its_treatments_where_they_are_on_record) {
    records::PlanAdopted plan;
    plan.rounds = {day(3, 10)};
    plan.enclosures = {EnclosureId("a")};
    plan.rooms = {records::RoomId("r")};
    plan.choices.change_substrate = plan.choices.keep_damp = plan.choices.soak_animals = true;
    plan.terms.scope = "sighted";
    EXPECT_EQ(
        words::say(tell(plan)),
        "1 round on 10 Mar 2026, 1 enclosure, substrate left in, no animal treated, no bedding sprayed");
    plan.terms.treatments.push_back(
        {"", day(3, 10), day(3, 10), {}, EnclosureId("a"), {}, records::Method::spray_bedding});
    EXPECT_NE(
        words::say(tell(plan)).find("no animal treated, bedding sprayed, paper kept damp with the spray"),
        std::string::npos);
}

}  // namespace
}  // namespace mitefall::worklist
