#include "records/collection.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>

#include "base/contract.h"
#include "journal.h"

namespace mitefall::records {
namespace {

std::vector<FactId> ids(const std::vector<Entry>& entries) {
    std::vector<FactId> list;
    for (const Entry& entry : entries) list.push_back(entry.id);
    return list;
}

TEST(InForce, orders_by_day_then_by_number) {
    Journal journal = small_collection();
    journal.add(day(3, 1), Weighed{AnimalId("pim"), units::grams(900)});
    journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(850)});
    journal.add(day(3, 1), Weighed{AnimalId("juno"), units::grams(700)});
    EXPECT_EQ(ids(in_force(journal.entries)), (std::vector<FactId>{1, 2, 3, 4, 5, 7, 6, 8}));
}

TEST(InForce, does_not_depend_on_the_order_of_the_input) {
    Journal journal = small_collection();
    const FactId first = journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(850)});
    const FactId second = journal.add(day(2, 2), Weighed{AnimalId("pim"), units::grams(860)}, first);
    journal.add(day(2, 3), Withdrawn{"not weighed at all"}, second);
    journal.add(day(2, 1), Weighed{AnimalId("juno"), units::grams(700)});
    const auto expected = in_force(journal.entries);
    EXPECT_TRUE(rc::check("shuffled journals have the same entries in force", [&] {
        auto shuffled = journal.entries;
        for (std::size_t i = shuffled.size(); i > 1; --i) {
            std::swap(shuffled[i - 1], shuffled[*rc::gen::inRange<std::size_t>(0, i)]);
        }
        RC_ASSERT(ids(in_force(shuffled)) == ids(expected));
    }));
}

TEST(InForce, a_withdrawn_entry_is_gone_and_so_is_the_withdrawal) {
    Journal journal = small_collection();
    const FactId weighed = journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(850)});
    journal.add(day(2, 5), Withdrawn{"wrong animal"}, weighed);
    EXPECT_EQ(in_force(journal.entries).size(), 5U);
    EXPECT_FALSE(collection_on(journal.entries, day(3, 1)).animals.at(AnimalId("pim")).weight);
}

TEST(InForce, a_correction_takes_effect_on_its_own_day) {
    Journal journal = small_collection();
    const FactId moved = journal.add(day(2, 1), AnimalMoved{AnimalId("pim"), EnclosureId("b")});
    journal.add(day(2, 10), AnimalMoved{AnimalId("pim"), EnclosureId("b")}, moved);
    EXPECT_EQ(collection_on(journal.entries, day(2, 9)).animals.at(AnimalId("pim")).enclosure,
              EnclosureId("a"));
    EXPECT_EQ(collection_on(journal.entries, day(2, 10)).animals.at(AnimalId("pim")).enclosure,
              EnclosureId("b"));
}

TEST(InForce, a_correction_of_a_correction_replaces_it) {
    Journal journal = small_collection();
    const FactId first = journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(850)});
    const FactId second = journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(58)}, first);
    journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(580)}, second);
    const auto weight = collection_on(journal.entries, day(2, 1)).animals.at(AnimalId("pim")).weight;
    ASSERT_TRUE(weight);
    EXPECT_EQ(weight->value, units::grams(580));
    EXPECT_EQ(weight->entry, 8);
}

TEST(InForce, a_corrected_room_still_comes_before_what_stands_in_it) {
    Journal journal = small_collection();
    RoomAdded renamed = room("snakes");
    renamed.name = "Back bedroom";
    journal.add(day(1, 1), renamed, 1);
    EXPECT_EQ(ids(in_force(journal.entries)), (std::vector<FactId>{6, 2, 3, 4, 5}));
    EXPECT_EQ(collection_on(journal.entries, day(1, 1)).rooms.at(RoomId("snakes")).name, "Back bedroom");
}

TEST(Fold, gives_the_collection_at_the_end_of_the_day) {
    Journal journal = small_collection();
    journal.add(day(2, 1), AnimalMoved{AnimalId("pim"), EnclosureId("b")});
    journal.add(day(3, 1), AnimalLeft{AnimalId("juno"), "sold"});
    EXPECT_TRUE(collection_on(journal.entries, day(1, 1) - units::Days(1)).rooms.empty());
    EXPECT_EQ(collection_on(journal.entries, day(1, 31)).animals_in(EnclosureId("b")).size(), 1U);
    EXPECT_EQ(collection_on(journal.entries, day(2, 1)).animals_in(EnclosureId("b")).size(), 2U);
    const Collection after = collection_on(journal.entries, day(3, 1));
    EXPECT_EQ(after.day, day(3, 1));
    EXPECT_FALSE(after.animals.contains(AnimalId("juno")));
    EXPECT_EQ(after.enclosures_in(RoomId("snakes")).size(), 2U);
    EXPECT_TRUE(after.enclosures_in(RoomId("elsewhere")).empty());
}

TEST(Fold, knows_since_when_the_book_has_had_what_was_put_right) {
    Journal journal = small_collection();
    const FactId first = journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(50)});
    const FactId second = journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(500)}, first);
    const FactId third = journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(505)}, second);
    const Collection collection = collection_on(journal.entries, day(2, 2));
    EXPECT_EQ(collection.first_told.at(third), first);
    EXPECT_EQ(collection.animals.at(AnimalId("pim")).weight->entry, third);
}

TEST(Fold, adjoining_holds_in_both_directions_and_is_sorted) {
    Journal journal = small_collection();
    journal.add(day(1, 2), room("b-room", {RoomId("snakes")}));
    journal.add(day(1, 2), room("a-room", {RoomId("snakes"), RoomId("b-room"), RoomId("snakes")}));
    const Collection now = collection_on(journal.entries, day(1, 2));
    EXPECT_EQ(now.rooms.at(RoomId("snakes")).adjoining, (std::vector{RoomId("a-room"), RoomId("b-room")}));
    EXPECT_EQ(now.rooms.at(RoomId("a-room")).adjoining, (std::vector{RoomId("b-room"), RoomId("snakes")}));
}

TEST(Fold, checks_that_found_mites_are_sightings) {
    Journal journal = small_collection();
    journal.add(day(2, 1), Checked{EnclosureId("a"), CheckMethod::soak, SeenCount::none});
    journal.add(day(2, 2), Checked{EnclosureId("a"), CheckMethod::soak, SeenCount::few});
    journal.add(day(2, 3), Sighted{EnclosureId("b"), SeenCount::one, SeenWhere::on_hands});
    const Collection now = collection_on(journal.entries, day(2, 3));
    ASSERT_EQ(now.sightings.size(), 2U);
    EXPECT_EQ(now.sightings[0].value, (Sighted{EnclosureId("a"), SeenCount::few, SeenWhere::in_water}));
    EXPECT_EQ(now.sightings[0].day, day(2, 2));
    EXPECT_EQ(now.sightings[1].value.where, SeenWhere::on_hands);
}

TEST(Fold, keeps_the_latest_weight_and_shed_by_day_not_by_writing) {
    Journal journal = small_collection();
    journal.add(day(3, 1), Weighed{AnimalId("pim"), units::grams(900)});
    journal.add(day(2, 1), Weighed{AnimalId("pim"), units::grams(850)});
    journal.add(day(3, 1), ShedSeen{AnimalId("pim"), ShedState::cloudy});
    journal.add(day(3, 8), ShedSeen{AnimalId("pim"), ShedState::shed});
    const Animal pim = collection_on(journal.entries, day(4, 1)).animals.at(AnimalId("pim"));
    EXPECT_EQ(pim.weight->value, units::grams(900));
    EXPECT_EQ(pim.shed->value, ShedState::shed);
    EXPECT_EQ(pim.shed->day, day(3, 8));
}

TEST(Fold, a_spell_of_cloudy_eyes_lasts_from_its_first_day_until_something_else_is_seen) {
    Journal journal = small_collection();
    const auto since = [&](units::Day on) {
        return collection_on(journal.entries, on).animals.at(AnimalId("pim")).cloudy_since;
    };
    journal.add(day(3, 1), ShedSeen{AnimalId("pim"), ShedState::cloudy});
    journal.add(day(3, 11), ShedSeen{AnimalId("pim"), ShedState::cloudy});
    EXPECT_EQ(since(day(3, 12)), day(3, 1));
    journal.add(day(3, 13), ShedSeen{AnimalId("pim"), ShedState::clear});
    journal.add(day(3, 20), ShedSeen{AnimalId("pim"), ShedState::cloudy});
    EXPECT_EQ(since(day(3, 20)), day(3, 20));
    journal.add(day(3, 10), ShedSeen{AnimalId("pim"), ShedState::shed});  // told late
    EXPECT_EQ(since(day(3, 12)), day(3, 11));
}

TEST(Fold, conditions_begin_and_end) {
    Journal journal = small_collection();
    journal.add(day(2, 1), ConditionNoted{AnimalId("pim"), Condition::thin, true, "", ""});
    journal.add(day(2, 2), ConditionNoted{AnimalId("pim"), Condition::reacted, true, "ivermectin", "shaky"});
    journal.add(day(2, 9), ConditionNoted{AnimalId("pim"), Condition::thin, false, "", ""});
    const Animal pim = collection_on(journal.entries, day(3, 1)).animals.at(AnimalId("pim"));
    ASSERT_EQ(pim.conditions.size(), 1U);
    EXPECT_EQ(pim.conditions[0].value.agent, "ivermectin");
}

TEST(Fold, quarantine_ends_on_its_day) {
    Journal journal = small_collection();
    AnimalArrived newcomer = snake("nox", "a");
    newcomer.quarantine = true;
    journal.add(day(3, 1), newcomer);
    journal.add(day(5, 1), QuarantineEnded{AnimalId("nox")});
    const auto is_apart = [&](Day when) {
        return collection_on(journal.entries, when).animals.at(AnimalId("nox")).quarantine;
    };
    EXPECT_TRUE(is_apart(day(4, 30)));
    EXPECT_FALSE(is_apart(day(5, 1)));
}

TEST(Fold, a_treated_room_stays_as_it_is) {
    Journal journal = small_collection();
    journal.add(day(2, 1), RoomTreated{RoomId("snakes"), units::milligrams_per_litre(5000)});
    const Collection now = collection_on(journal.entries, day(2, 1));
    EXPECT_EQ(now.rooms.size(), 1U);
    EXPECT_FALSE(now.acknowledged);
}

TEST(Fold, water_remembers_since_when_it_is_out) {
    Journal journal = small_collection();
    journal.add(day(2, 1), WaterMoved{EnclosureId("a"), true});
    journal.add(day(2, 2), WaterMoved{EnclosureId("a"), true});
    EXPECT_EQ(collection_on(journal.entries, day(2, 3)).enclosures.at(EnclosureId("a")).water_out_since,
              day(2, 1));
    journal.add(day(2, 4), WaterMoved{EnclosureId("a"), false});
    const Enclosure back = collection_on(journal.entries, day(2, 4)).enclosures.at(EnclosureId("a"));
    EXPECT_FALSE(back.water_is_out);
    EXPECT_FALSE(back.water_out_since);
}

TEST(Fold, paper_wetted_again_is_remembered_also_where_only_a_tick_told_of_it) {
    Journal journal = small_collection();
    journal.add(day(2, 1), PaperWetted{EnclosureId("a")});
    journal.add(day(2, 2), TaskDone{"2026-02-02/redampen/a"});
    journal.add(day(2, 3), TaskDone{"2026-02-03/drink/a"});
    journal.add(day(2, 3), TaskDone{"2026-02-03/redampen/gone"});
    const Collection now = collection_on(journal.entries, day(2, 3));
    std::vector<units::Day> wetted;
    for (const Dated& one : now.enclosures.at(EnclosureId("a")).wetted) wetted.push_back(one.day);
    EXPECT_EQ(wetted, (std::vector{day(2, 1), day(2, 2)}));
}

TEST(Fold, meals_are_kept_by_day_and_eggs_since_they_were_first_told_of) {
    Journal journal = small_collection();
    journal.add(day(2, 5), MealNoted{AnimalId("pim"), MealOutcome::refused, "mouse", 1, {}, false});
    const FactId eaten = journal.add(
        day(2, 1), MealNoted{AnimalId("pim"), MealOutcome::eaten, "mouse", 2, units::grams(40), false});
    const FactId laid = journal.add(day(2, 2), EggsNoted{EnclosureId("a")});
    journal.add(day(2, 4), EggsNoted{EnclosureId("a")});
    const Collection then = collection_on(journal.entries, day(2, 6));
    const auto& meals = then.animals.at(AnimalId("pim")).meals;
    ASSERT_EQ(meals.size(), 2U);
    EXPECT_EQ(meals[0].entry, eaten) << "told late";
    EXPECT_EQ(meals[0].value.mass, units::grams(40));
    EXPECT_EQ(meals[1].value.outcome, MealOutcome::refused);
    ASSERT_TRUE(then.enclosures.at(EnclosureId("a")).eggs);
    EXPECT_EQ(then.enclosures.at(EnclosureId("a")).eggs->entry, laid);
    journal.add(day(2, 7), EggsNoted{EnclosureId("a"), false});
    EXPECT_FALSE(collection_on(journal.entries, day(2, 8)).enclosures.at(EnclosureId("a")).eggs);
    EXPECT_FALSE(journal.try_add(day(2, 9), EggsNoted{EnclosureId("a"), false})) << "there are none";
}

TEST(Fold, an_enclosure_stands_where_it_was_put_last) {
    Journal journal = small_collection();
    EXPECT_FALSE(collection_on(journal.entries, day(1, 31)).enclosures.at(EnclosureId("a")).stand);
    journal.add(day(2, 1), EnclosureStands{EnclosureId("a"), "by the door", 1, 4});
    journal.add(day(2, 3), EnclosureStands{EnclosureId("a"), "window", 3, 2});
    const auto then = collection_on(journal.entries, day(2, 2)).enclosures.at(EnclosureId("a")).stand;
    ASSERT_TRUE(then);
    EXPECT_EQ(then->rack, "by the door");
    const auto now = collection_on(journal.entries, day(2, 3)).enclosures.at(EnclosureId("a")).stand;
    ASSERT_TRUE(now);
    EXPECT_EQ(now->rack, "window");
    EXPECT_EQ(now->level, 3);
    EXPECT_EQ(now->position, 2);
}

TEST(Fold, contact_with_the_outside_is_remembered_with_its_day_and_entry) {
    Journal journal = small_collection();
    const FactId entry =
        journal.add(day(2, 1), OutsideContact{OutsideKind::borrowed_thing, {}, {EnclosureId("a")}, "a hook"});
    EXPECT_TRUE(collection_on(journal.entries, day(1, 31)).outside.empty());
    const auto outside = collection_on(journal.entries, day(2, 3)).outside;
    ASSERT_EQ(outside.size(), 1U);
    EXPECT_EQ(outside[0].day, day(2, 1));
    EXPECT_EQ(outside[0].entry, entry);
    EXPECT_EQ(outside[0].value.what, OutsideKind::borrowed_thing);
}

std::vector<Sign> signs_of(const Collection& now, const char* animal) {
    std::vector<Sign> signs;
    for (const auto& sign : now.animals.at(AnimalId(animal)).signs) signs.push_back(sign.value);
    return signs;
}

TEST(Fold, other_life_is_here_until_it_moves_out_and_again_once_it_is_back) {
    Journal journal = small_collection();
    const BystanderNoted tully{"Tully", "tortoise", RoomId("snakes")};
    const BystanderNoted tank{"Tank", "fish", RoomId("snakes")};
    journal.add(day(2, 1), tully);
    journal.add(day(2, 1), tank);
    const FactId out = journal.add(day(3, 1), BystanderMoved{{"Tully", {}, {}}});
    journal.add(day(4, 1), BystanderMoved{{"Tully", {}, {}}, false});
    EXPECT_EQ(collection_on(journal.entries, day(2, 28)).bystanders, (std::vector{tully, tank}));
    const Collection away = collection_on(journal.entries, day(3, 31));
    EXPECT_EQ(away.bystanders, std::vector{tank});
    ASSERT_EQ(away.bystanders_away.size(), 1U);
    EXPECT_EQ(away.bystanders_away[0].value, tully);
    EXPECT_EQ(away.bystanders_away[0].day, day(3, 1));
    EXPECT_EQ(away.bystanders_away[0].entry, out);
    const Collection back = collection_on(journal.entries, day(4, 1));
    EXPECT_EQ(back.bystanders, (std::vector{tank, tully}));
    EXPECT_TRUE(back.bystanders_away.empty());
}

TEST(Fold, other_life_moves_out_once_and_comes_back_once) {
    Journal journal = small_collection();
    journal.add(day(2, 1), BystanderNoted{"Tully", "tortoise", RoomId("snakes")});
    const auto kind_of_refusal = [&](const BystanderMoved& fact) {
        return journal.try_add(day(3, 1), fact).error().kind;
    };
    EXPECT_EQ(kind_of_refusal({{"Tully", {}, {}}, false}), base::ErrorKind::conflict);
    EXPECT_EQ(kind_of_refusal({{"Nobody", {}, {}}}), base::ErrorKind::not_found);
    EXPECT_EQ(kind_of_refusal({{"Tully", "cat", {}}}), base::ErrorKind::not_found)
        << "another kind is another";
    journal.add(day(3, 1), BystanderMoved{{{}, "tortoise", {}}});
    EXPECT_EQ(kind_of_refusal({{"Tully", {}, {}}}), base::ErrorKind::conflict);
}

TEST(Fold, a_sign_stays_until_somebody_says_that_it_is_gone) {
    Journal journal = small_collection();
    journal.add(day(2, 1), SignsNoted{AnimalId("pim"), {Sign::limp, Sign::pale_gums}, {}});
    journal.add(day(2, 2), SignsNoted{AnimalId("pim"), {}, {}});
    EXPECT_EQ(signs_of(collection_on(journal.entries, day(2, 2)), "pim"),
              (std::vector{Sign::limp, Sign::pale_gums}));
    const FactId again = journal.add(day(2, 3), SignsNoted{AnimalId("pim"), {Sign::limp}, {Sign::pale_gums}});
    const Collection now = collection_on(journal.entries, day(2, 3));
    ASSERT_EQ(signs_of(now, "pim"), (std::vector{Sign::limp}));
    EXPECT_EQ(now.animals.at(AnimalId("pim")).signs[0].day, day(2, 3));
    EXPECT_EQ(now.animals.at(AnimalId("pim")).signs[0].entry, again);
}

TEST(Fold, a_sign_is_gone_only_after_it_was_seen_and_named_once) {
    const Journal journal = small_collection();
    const auto accepts = [&](SignsNoted fact) {
        return check_fact(journal.entries, {0, day(2, 1), {}, std::move(fact), {}}, day(2, 1)).has_value();
    };
    EXPECT_TRUE(accepts({AnimalId("pim"), {Sign::limp}, {}}));
    EXPECT_FALSE(accepts({AnimalId("pim"), {}, {Sign::limp}}));
    EXPECT_FALSE(accepts({AnimalId("pim"), {Sign::limp, Sign::limp}, {}}));
}

TEST(Fold, signs_are_asked_for_where_somebody_looked_today_or_an_animal_reacted) {
    Journal journal = small_collection();
    const auto asks = [&](units::Day on) {
        const Collection now = collection_on(journal.entries, on);
        return now.asks_for_signs(now.animals.at(AnimalId("pim")));
    };
    EXPECT_FALSE(asks(day(2, 1)));
    journal.add(day(2, 1), Checked{EnclosureId("a"), CheckMethod::look_over, SeenCount::none});
    EXPECT_TRUE(asks(day(2, 1)));
    EXPECT_FALSE(asks(day(2, 2)));
    journal.add(day(2, 1), SignsNoted{AnimalId("pim"), {}, {}});
    EXPECT_FALSE(asks(day(2, 1)));
    journal.add(day(2, 4), ConditionNoted{AnimalId("pim"), Condition::reacted, true, "ivermectin", ""});
    EXPECT_TRUE(asks(day(2, 4)));
}

TEST(Fold, a_death_is_remembered_with_the_animal_as_it_was_and_answered_once) {
    Journal journal = small_collection();
    journal.add(day(2, 1), AnimalLeft{AnimalId("pim"), "found in the morning", false, {}, LeftHow::died});
    const Collection now = collection_on(journal.entries, day(2, 1));
    EXPECT_FALSE(now.animals.contains(AnimalId("pim")));
    ASSERT_EQ(now.deaths.size(), 1U);
    EXPECT_EQ(now.deaths[0].died.value.id, AnimalId("pim"));
    EXPECT_EQ(now.deaths[0].died.value.stays.back().until, day(2, 1));
    EXPECT_FALSE(now.deaths[0].answered);
    const Entry answer{0, day(2, 2), {}, DeathAnswered{AnimalId("pim"), "it was thirty years old"}, {}};
    EXPECT_TRUE(check_fact(journal.entries, answer, day(2, 2)));
    journal.add(day(2, 2), answer.fact);
    EXPECT_TRUE(collection_on(journal.entries, day(2, 2)).deaths[0].answered);
    EXPECT_FALSE(check_fact(journal.entries, answer, day(2, 2)));
}

TEST(Fold, an_animal_sold_is_no_death) {
    Journal journal = small_collection();
    journal.add(day(2, 1), AnimalLeft{AnimalId("pim"), "", false, {}, LeftHow::sold});
    EXPECT_TRUE(collection_on(journal.entries, day(2, 1)).deaths.empty());
}

TEST(Fold, treatments_substrate_plan_and_tasks) {
    Journal journal = small_collection();
    const auto strong = units::milligrams_per_litre(200);
    journal.add(day(2, 1), StrengthAcknowledged{strong});
    journal.add(day(2, 1), StrengthAcknowledged{units::milligrams_per_litre(20)});
    journal.add(
        day(2, 1),
        PlanAdopted{{day(2, 1), day(2, 8)}, {EnclosureId("a")}, {RoomId("snakes")}, {true, true}, strong});
    journal.add(day(2, 1), Treated{EnclosureId("a"), {AnimalId("pim")}, Method::spray_animal, strong});
    journal.add(day(2, 1), Treated{EnclosureId("a"), {}, Method::spray_bedding, strong});
    journal.add(day(2, 1), SubstrateChanged{EnclosureId("a"), Substrate::paper});
    journal.add(day(2, 1),
                VetDirection{AnimalId("pim"), Method::oral_afoxolaner, "the vet in town", "one dose"});
    journal.add(day(2, 1), TaskSkipped{"2026-02-01/a/spray", "asleep"});
    journal.add(day(2, 2), TaskDone{"2026-02-01/a/spray"});
    journal.add(day(2, 2), TaskSkipped{"2026-02-02/b/check", "no time"});
    const Collection now = collection_on(journal.entries, day(2, 2));
    EXPECT_EQ(now.acknowledged, strong);
    EXPECT_EQ(now.plan->value.rounds.size(), 2U);
    EXPECT_EQ(now.animals.at(AnimalId("pim")).treatments.size(), 1U);
    EXPECT_TRUE(now.animals.at(AnimalId("juno")).treatments.empty());
    EXPECT_EQ(now.animals.at(AnimalId("pim")).directions.size(), 1U);
    EXPECT_EQ(now.enclosures.at(EnclosureId("a")).substrate, Substrate::paper);
    EXPECT_EQ(now.enclosures.at(EnclosureId("b")).substrate, Substrate::loose);
    EXPECT_TRUE(now.done.contains("2026-02-01/a/spray"));
    EXPECT_FALSE(now.skipped.contains("2026-02-01/a/spray"));
    EXPECT_EQ(now.skipped.at("2026-02-02/b/check").value.reason, "no time");
}

TEST(Fold, a_strength_is_acknowledged_for_the_animal_named) {
    Journal journal = small_collection();
    const auto strong = units::milligrams_per_litre(200);
    journal.add(day(2, 1), StrengthAcknowledged{strong, AnimalId("pim")});
    EXPECT_FALSE(journal.try_add(day(2, 1), StrengthAcknowledged{strong, AnimalId("nobody")}));
    const Collection now = collection_on(journal.entries, day(2, 1));
    EXPECT_FALSE(now.acknowledged) << "not for places without an animal";
    ASSERT_EQ(now.animals.at(AnimalId("pim")).acknowledged.size(), 1U);
    EXPECT_EQ(now.animals.at(AnimalId("pim")).acknowledged.front().value, strong);
    EXPECT_TRUE(now.animals.at(AnimalId("juno")).acknowledged.empty());
}

TEST(Fold, weighings_are_all_kept_and_the_latest_is_the_weight) {
    Journal journal = small_collection();
    const auto before =
        collection_on(journal.entries, day(3, 1)).animals.at(AnimalId("pim")).weighings.size();
    journal.add(day(3, 2), Weighed{AnimalId("pim"), units::grams(190)});
    journal.add(day(3, 9), Weighed{AnimalId("pim"), units::grams(150)});
    const Animal pim = collection_on(journal.entries, day(3, 9)).animals.at(AnimalId("pim"));
    ASSERT_EQ(pim.weighings.size(), before + 2);
    EXPECT_EQ(pim.weighings.back().value, pim.weight->value);
    EXPECT_EQ(pim.weight->value, units::grams(150));
}

TEST(Fold, an_animal_that_comes_back_keeps_its_history) {
    Journal journal = small_collection();
    journal.add(day(2, 1), Treated{EnclosureId("a"), {AnimalId("pim")}, Method::soak, {}});
    journal.add(day(3, 1), AnimalLeft{AnimalId("pim"), "breeding loan"});
    journal.add(day(5, 1), snake("pim", "b"));
    const Animal pim = collection_on(journal.entries, day(5, 1)).animals.at(AnimalId("pim"));
    EXPECT_EQ(pim.arrived, day(5, 1));
    EXPECT_EQ(pim.enclosure, EnclosureId("b"));
    EXPECT_EQ(pim.treatments.size(), 1U);
}

TEST(Fold, a_journal_that_was_never_accepted_is_a_defect) {
    const std::vector<Entry> journal{{1, day(1, 1), "", tub("a"), {}}};
    EXPECT_THROW(std::ignore = collection_on(journal, day(1, 1)), base::ContractViolation);
    EXPECT_NO_THROW(std::ignore = collection_on(journal, day(1, 1) - units::Days(1)));
}

TEST(Collection, what_was_done_around_an_animal_is_the_same_in_any_order_within_a_day) {
    const AnimalMoved move{AnimalId("pim"), EnclosureId("b")};
    std::vector<Fact> facts{move};
    for (const char* const id : {"a", "b"})
        facts.push_back(Treated{EnclosureId(id), {}, Method::spray_bedding, units::milligrams_per_litre(10)});
    std::vector<int> order{0, 1, 2};
    do {
        Journal journal = small_collection();
        for (const int i : order) journal.add(day(2, 1), facts[static_cast<std::size_t>(i)]);
        const Collection then = collection_on(journal.entries, day(2, 2));
        const Animal& pim = then.animals.at(AnimalId("pim"));
        ASSERT_EQ(pim.exposures.size(), 2U);
        EXPECT_LT(pim.exposures[0].entry, pim.exposures[1].entry);
        EXPECT_NE(pim.exposures[0].value.enclosure, pim.exposures[1].value.enclosure);
        EXPECT_EQ(then.animals.at(AnimalId("juno")).exposures.size(), 1U);
        ASSERT_EQ(pim.stays.size(), 2U);
        EXPECT_EQ(pim.stays[0].until, day(2, 1));
        EXPECT_EQ(pim.stays[1].from, day(2, 1));
    } while (std::next_permutation(order.begin(), order.end()));
}

TEST(Collection, who_left_and_came_back_was_not_there_between) {
    Journal journal = small_collection();
    journal.add(day(2, 1), AnimalLeft{AnimalId("pim"), {}});
    journal.add(day(2, 2),
                Treated{EnclosureId("a"), {}, Method::spray_bedding, units::milligrams_per_litre(10)});
    journal.add(day(2, 3), snake("pim", "a"));
    const Collection then = collection_on(journal.entries, day(2, 3));
    EXPECT_TRUE(then.animals.at(AnimalId("pim")).exposures.empty());
    EXPECT_EQ(then.animals.at(AnimalId("pim")).stays.front().until, day(2, 1));
}

}  // namespace
}  // namespace mitefall::records
