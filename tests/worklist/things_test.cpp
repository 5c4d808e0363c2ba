#include <gtest/gtest.h>

#include "diary.h"
#include "words/words.h"
#include "worklist/work.h"

// Things on the day's list, and places cleaned step by step.
namespace mitefall::worklist {
namespace {

using records::ThingId;
using records::ThingKept;
using records::ThingKind;
using records::ThingMethod;

const std::string hide_today = "2026-03-10/thing/hide";

Diary with(ThingKind what, std::optional<ThingMethod> by = {}) {
    Diary diary(one_tub());
    diary.note(ThingKept{ThingId("hide"), what, enclosure("a"), {}, by});
    return diary;
}

std::vector<std::string> ids_of(const Task& task) {
    std::vector<std::string> ids;
    for (const auto& step : task.steps) ids.emplace_back(step.id);
    return ids;
}

TEST(ThingsOfTheDay, are_on_the_list_of_a_round_and_on_record_by_their_tick) {
    Diary diary = with(ThingKind::hide);
    EXPECT_FALSE(diary.lists(hide_today)) << "without a course";
    diary.adopt(2, 7, {enclosure("a")}, {}, true, false);
    const Task task = diary.task(hide_today);
    EXPECT_EQ(task.kind, TaskKind::thing);
    EXPECT_EQ(task.what.id, work::wash_thing.id);
    EXPECT_EQ(facts_of(task),
              (std::vector<records::Fact>{records::ThingTreated{ThingId("hide"), ThingMethod::wash_hot}}));
    diary.tick(task);
    EXPECT_EQ(diary.task(hide_today).state, TaskState::done);
    EXPECT_EQ(diary.collection().things.at(ThingId("hide")).treated.size(), 1U);
    diary.sleep(7);
    EXPECT_TRUE(diary.lists("2026-03-17/thing/hide"));
}

TEST(ThingsOfTheDay, skipped_count_nothing) {
    Diary diary = with(ThingKind::hide);
    diary.adopt(1, 7, {enclosure("a")}, {}, true, false);
    diary.skip(hide_today);
    EXPECT_EQ(diary.task(hide_today).state, TaskState::skipped);
    EXPECT_TRUE(diary.collection().things.at(ThingId("hide")).treated.empty());
}

// Seven days in the freezer (row freeze_time): on the day of a round in between it is not there to be
// treated.
TEST(ThingsOfTheDay, are_not_asked_for_while_they_are_away) {
    Diary diary = with(ThingKind::branch, ThingMethod::freeze);
    diary.adopt(3, 4, {enclosure("a")}, {}, true, false);
    const Task task = diary.task(hide_today);
    EXPECT_NE(words::say(task.what).find("17 Mar"), std::string::npos) << words::say(task.what);
    diary.tick(task);
    diary.sleep(4);
    EXPECT_FALSE(diary.lists("2026-03-14/thing/hide"));
    diary.sleep(4);
    EXPECT_TRUE(diary.lists("2026-03-18/thing/hide"));
}

TEST(ThingsOfTheDay, thrown_away_do_not_come_again) {
    Diary diary = with(ThingKind::card_box);
    diary.adopt(2, 7, {enclosure("a")}, {}, true, false);
    diary.tick(hide_today);
    diary.sleep(7);
    EXPECT_FALSE(diary.lists("2026-03-17/thing/hide"));
}

TEST(ThingsOfTheDay, of_a_room_come_with_its_enclosures_and_those_elsewhere_do_not) {
    Diary diary(three_rooms());
    diary.note(ThingKept{ThingId("floor"), ThingKind::floor, {}, RoomId("middle")});
    diary.note(ThingKept{ThingId("rack"), ThingKind::rack, {}, RoomId("attic")});
    diary.adopt(1, 7, {enclosure("m")}, {}, true, false);
    EXPECT_EQ(diary.task("2026-03-10/thing/floor").room, RoomId("middle"));
    EXPECT_FALSE(diary.lists("2026-03-10/thing/rack"));
}

// A spray is the safety check's to permit: permethrin near a tortoise is not (gate of the air is
// ivermectin's; of its own enclosure it asks a veterinarian).
TEST(ThingsOfTheDay, are_sprayed_only_with_a_permitted_treatment) {
    Diary diary = with(ThingKind::cable);
    diary.adopt(1, 7, {enclosure("a")}, {}, true, false);
    const Task task = diary.task(hide_today);
    ASSERT_TRUE(task.treatment.has_value());
    EXPECT_EQ(task.treatment->method(), records::Method::permethrin_empty);
    EXPECT_EQ(task.agent, "permethrin");
    diary.note(
        records::AnimalArrived{AnimalId("shelly"), "shelly", "Testudo hermanni", "", enclosure("a"), false});
    EXPECT_FALSE(diary.lists(hide_today));
    const auto passed = diary.list().passed_over;
    EXPECT_TRUE(std::any_of(passed.begin(), passed.end(), [](const PassedOver& one) {
        return one.method == records::Method::permethrin_empty;
    }));
}

TEST(StepByStep, plastic_is_washed_hot_and_wood_is_not) {
    records::Journal journal = one_tub();
    records::EnclosureAdded large = records::tub("large");
    large.floor = units::square_centimetres(12'000);
    records::EnclosureAdded wood = large;
    wood.enclosure = enclosure("wood");
    wood.material = records::Material::porous;
    journal.add(records::day(1, 1), large);
    journal.add(records::day(1, 1), wood);
    Diary diary(journal);
    diary.adopt(1, 7, {enclosure("a"), enclosure("large"), enclosure("wood")}, {}, true, false);
    using Ids = std::vector<std::string>;
    EXPECT_EQ(ids_of(diary.task("2026-03-10/substrate/a")),
              (Ids{"step_animal_out", "step_bag", "step_brush_tub", "step_wash_tub", "step_dry",
                   "step_disinfect", "step_paper", "step_heat", "step_hands"}));
    EXPECT_EQ(ids_of(diary.task("2026-03-10/substrate/large")),
              (Ids{"step_bag", "step_brush_tub", "step_wash_in_place", "step_dry", "step_disinfect",
                   "step_paper", "step_hands"}));
    EXPECT_EQ(ids_of(diary.task("2026-03-10/substrate/wood")),
              (Ids{"step_bag", "step_vacuum_wood", "step_wipe_wood", "step_wood_keeps", "step_dry",
                   "step_disinfect", "step_paper", "step_hands"}));
    EXPECT_TRUE(diary.task("2026-03-10/animal/anna").steps.empty()) << "one thing to do";
}

// Common practice: nobody is told to carry a venomous snake into a box by hand.
TEST(StepByStep, a_venomous_animal_goes_into_its_shift_box) {
    Diary diary(one_tub());
    diary.note(records::AnimalArrived{AnimalId("vip"), "vip", "copperhead", "", enclosure("a"), false});
    diary.adopt(1, 7, {enclosure("a")}, {}, true, false);
    EXPECT_EQ(ids_of(diary.task("2026-03-10/substrate/a")).front(), "step_shift_box");
}

}  // namespace
}  // namespace mitefall::worklist
