#include "service/asked_first.h"

#include <gtest/gtest.h>

#include "../store/scratch.h"
#include "base/embedded.h"
#include "service/asked.h"
#include "service/clearance.h"
#include "service/departure.h"
#include "shared/knowledge.h"
#include "units/whole_days.h"
#include "words/words.h"
#include "worklist/watch.h"

namespace mitefall::service {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::RoomId;

const units::Day today = std::chrono::year(2026) / 6 / 15;

records::Climate warm() {
    return {units::celsius(28), units::celsius(25), units::relative_humidity_percent(55)};
}

/// Two rooms; mites were seen with ivy in t-1 five days ago. moss in t-2 shares the room; fern and sage in
/// the loft and reed in the cellar do not.
class AskedFirst : public store::Scratch {
  protected:
    AskedFirst() : keeper(Keeper::create(at("c").string(), knowledge()).value()) {
        const units::Day begin = today - units::Days(200);
        std::vector<DatedFact> facts;
        for (const char* room : {"den", "loft", "cellar", "attic"}) {
            facts.push_back({begin, records::RoomAdded{RoomId(room), room, warm(), {}, area()}});
        }
        const auto home = [&](const char* tub, const char* room, const char* animal, bool quarantine) {
            facts.push_back({begin, records::EnclosureAdded{EnclosureId(tub), tub, RoomId(room),
                                                            records::Material::sealed,
                                                            records::Substrate::paper, warm(), area()}});
            facts.push_back({begin, records::AnimalArrived{AnimalId(animal), animal, "ball python", "",
                                                           EnclosureId(tub), quarantine}});
        };
        home("t-1", "den", "ivy", false);
        home("t-2", "den", "moss", true);
        home("t-3", "loft", "fern", false);
        home("t-4", "loft", "sage", true);
        home("t-5", "cellar", "reed", false);
        facts.push_back({begin, records::EnclosureAdded{EnclosureId("t-6"), "t-6", RoomId("attic"),
                                                        records::Material::sealed, records::Substrate::paper,
                                                        warm(), area()}});
        facts.push_back({today - units::Days(5), records::Sighted{EnclosureId("t-1"), records::SeenCount::few,
                                                                  records::SeenWhere::on_animal}});
        const auto ids = keeper.record_all(facts, now);
        if (!ids) throw std::runtime_error(ids.error().message());
    }

    static units::Area area() { return units::square_centimetres(20000); }

    std::vector<Ask> asked(const records::Fact& fact, std::optional<double> chance = 0.99) {
        return asked_first(**keeper.situation(now.today), {{today, fact}},
                           [=](const AnimalId&) { return chance; })
            .value();
    }
    base::Result<std::vector<records::FactId>> record(const records::Fact& fact,
                                                      const std::vector<std::string>& keys = {}) {
        return record_knowingly(
            keeper, {{today, fact}}, keys, [](const AnimalId&) { return std::optional(0.99); }, now);
    }

    Now now{today, "2026-06-15T20:00:00Z"};
    Keeper keeper;
};

records::AnimalMoved move(const char* animal, const char* to) { return {AnimalId(animal), EnclosureId(to)}; }

TEST_F(AskedFirst, a_move_between_healthy_places_asks_nothing) {
    EXPECT_TRUE(asked(move("fern", "t-4")).empty());
    EXPECT_TRUE(record(move("fern", "t-4")));
}

TEST_F(AskedFirst, a_move_from_where_mites_were_seen) {
    const auto asks = asked(move("ivy", "t-3"));
    ASSERT_EQ(asks.size(), 1U);
    EXPECT_EQ(asks[0].kind, AskKind::move);
    EXPECT_EQ(asks[0].from_danger, worklist::Danger::sighted);
    const auto before = keeper.last_entry().value();
    const auto refused = record(move("ivy", "t-3"));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().where, "acknowledged");
    EXPECT_EQ(refused.error().value, asks[0].key);
    EXPECT_EQ(keeper.last_entry().value(), before);
    EXPECT_TRUE(record(move("ivy", "t-3"), {asks[0].key}));
}

TEST_F(AskedFirst, a_move_to_where_mites_were_seen) {
    const auto asks = asked(move("fern", "t-1"));
    ASSERT_EQ(asks.size(), 1U);
    EXPECT_EQ(asks[0].to_danger, worklist::Danger::sighted);
}

TEST_F(AskedFirst, who_has_no_water_and_goes_where_there_is_none) {
    const auto water = [&](const char* tub, int ago, bool out) {
        ASSERT_TRUE(
            keeper.record({records::WaterMoved{EnclosureId(tub), out}}, today - units::Days(ago), now));
    };
    water("t-3", 2, true);
    EXPECT_TRUE(asked(move("fern", "t-5")).empty()) << "there is a dish";
    water("t-5", 1, true);
    const auto asks = asked(move("fern", "t-5"));
    ASSERT_EQ(asks.size(), 1U);
    EXPECT_EQ(asks[0].kind, AskKind::dry_move);
    EXPECT_NE(words::say_all(asks[0].says).find("16 Jun 2026"), std::string::npos)
        << words::say_all(asks[0].says);
    EXPECT_FALSE(record(move("fern", "t-5")));
    EXPECT_TRUE(asked(move("reed", "t-4")).empty()) << "to a dish";
    EXPECT_TRUE(record(move("fern", "t-5"), {asks[0].key}));
}

TEST_F(AskedFirst, what_was_said_yes_to_before_things_got_worse_does_not_count) {
    const auto asks = asked(move("ivy", "t-3"));
    ASSERT_EQ(asks.size(), 1U);
    const records::Sighted worse{EnclosureId("t-3"), records::SeenCount::few, records::SeenWhere::on_animal};
    ASSERT_TRUE(keeper.record({worse}, today, now));
    EXPECT_FALSE(record(move("ivy", "t-3"), {asks[0].key}));
}

TEST_F(AskedFirst, a_departure_tells_what_whoever_takes_it_must_know) {
    const auto asks = asked(records::AnimalLeft{AnimalId("ivy"), "sold"});
    ASSERT_EQ(asks.size(), 1U);
    EXPECT_EQ(asks[0].kind, AskKind::departure);
    EXPECT_FALSE(asks[0].tell.empty());
    EXPECT_TRUE(asked(records::AnimalLeft{AnimalId("fern"), "sold"}).empty());
}

TEST_F(AskedFirst, mites_in_the_same_room_keep_a_quarantine_going) {
    const auto asks = asked(records::QuarantineEnded{AnimalId("moss"), ""});
    ASSERT_EQ(asks.size(), 1U);
    EXPECT_EQ(asks[0].doubts, std::vector{Doubt::mites_in_room});
    EXPECT_FALSE(record(records::QuarantineEnded{AnimalId("moss"), ""}, {asks[0].key}));
    EXPECT_FALSE(record(records::QuarantineEnded{AnimalId("moss"), "  "}, {asks[0].key}));
    EXPECT_TRUE(record(records::QuarantineEnded{AnimalId("moss"), "the room is needed"}));
}

TEST_F(AskedFirst, a_move_or_a_sale_is_no_way_round_a_quarantine) {
    const auto asks = asked(move("sage", "t-5"));
    ASSERT_EQ(asks.size(), 1U);
    EXPECT_EQ(asks[0].from_danger, worklist::Danger::healthy);
    EXPECT_EQ(asks[0].to_danger, worklist::Danger::healthy);
    EXPECT_NE(words::say_all(asks[0].says).find("in quarantine"), std::string::npos)
        << words::say_all(asks[0].says);
    EXPECT_FALSE(record(move("sage", "t-5")));
    EXPECT_TRUE(asked(move("sage", "t-3")).empty()) << "within its room";
    EXPECT_TRUE(asked(move("sage", "t-6")).empty()) << "to a room where nobody lives";
    const auto sold = asked(records::AnimalLeft{AnimalId("sage"), "sold"});
    ASSERT_EQ(sold.size(), 1U);
    ASSERT_FALSE(sold[0].tell.empty());
    EXPECT_NE(words::say(sold[0].tell.front().what).find("still in quarantine"), std::string::npos);
    EXPECT_TRUE(record(records::AnimalLeft{AnimalId("sage"), "sold"}, {sold[0].key}));
}

TEST_F(AskedFirst, what_is_older_than_contacts_are_traced_is_history) {
    const units::Days back(static_cast<int>(units::in_days(knowledge().tables.time("look_back").value)));
    const auto asks = [&](units::Day day) {
        return asked_first(**keeper.situation(now.today), {{day, move("ivy", "t-3")}}, {})->size();
    };
    EXPECT_EQ(asks(today - back - units::Days(1)), 0U);
    EXPECT_EQ(asks(today - back), 1U);
}

/// The last day on which the end of the quarantine of moss is doubted for mites in its room.
TEST_F(AskedFirst, a_room_is_watched_as_long_as_the_worklist_looks_there) {
    const auto doubted_on = [&](units::Day day) {
        const auto asks =
            asked_first(**keeper.situation(day), {{day, records::QuarantineEnded{AnimalId("moss"), ""}}},
                        [](const AnimalId&) { return std::optional(0.99); });
        return !asks->empty() && asks->front().doubts.front() == Doubt::mites_in_room;
    };
    const units::Day seen = today - units::Days(5);
    const units::Days watch = worklist::watch(knowledge().tables);
    EXPECT_TRUE(doubted_on(seen + watch));
    EXPECT_FALSE(doubted_on(seen + watch + units::Days(1)));
    ASSERT_TRUE(keeper.record(
        {records::Treated{EnclosureId("t-1"), {}, records::Method::change_substrate, {}}}, today, now));
    EXPECT_TRUE(doubted_on(today + watch)) << "from the last treatment in the room on";
    EXPECT_FALSE(doubted_on(today + watch + units::Days(1)));
    const records::PlanAdopted course{{today, today + units::Days(14)},
                                      {EnclosureId("t-1")},
                                      {},
                                      {true, false},
                                      units::milligrams_per_litre(10)};
    ASSERT_TRUE(keeper.record({course}, today, now));
    EXPECT_TRUE(doubted_on(today + units::Days(14) + watch)) << "also where that is still to come";
    EXPECT_FALSE(doubted_on(today + units::Days(14) + watch + units::Days(1)));
}

// Fern lives where none may be by now; mites were seen in another tub of its room.
TEST_F(AskedFirst, a_departure_while_its_room_is_watched_is_a_risk_to_whoever_takes_it) {
    const units::Day seen = today - units::Days(60);
    ASSERT_TRUE(keeper.record(
        {records::Sighted{EnclosureId("t-4"), records::SeenCount::few, records::SeenWhere::on_animal}}, seen,
        now));
    const auto risk_on = [&](units::Day day) {
        const auto then = keeper.situation(day).value();
        const auto& fern = then->collection().animals.at(AnimalId("fern"));
        return risk_of_leaving(fern, fern.enclosure, worklist::Danger::healthy, then->collection(),
                               knowledge().tables);
    };
    const auto last = seen + worklist::watch(knowledge().tables);
    const statement::Names fern{{"fern", "fern"}}, home{{"t-3", "t-3"}};
    EXPECT_EQ(risk_on(last),
              (std::vector{asked::leaves_from(fern, {asked::no_mites_are_known_in(home)}),
                           asked::watch_not_over(fern, seen), asked::can_take_them_to_others()}));
    EXPECT_TRUE(risk_on(last + units::Days(1)).empty());
}

TEST_F(AskedFirst, nobody_is_warned_of_taking_an_animal_that_died) {
    records::AnimalLeft death{AnimalId("ivy"), ""};
    for (const auto how : {records::LeftHow::died, records::LeftHow::put_to_sleep}) {
        death.how = how;
        EXPECT_TRUE(asked(death).empty());
    }
    death.how = records::LeftHow::escaped;
    EXPECT_EQ(asked(death).size(), 1U);
}

TEST_F(AskedFirst, a_quarantine_in_another_room_ends_with_a_known_chance_only) {
    const records::QuarantineEnded ends{AnimalId("sage"), ""};
    EXPECT_TRUE(asked(ends).empty());
    ASSERT_EQ(asked(ends, std::nullopt).size(), 1U);
    EXPECT_EQ(asked(ends, std::nullopt)[0].doubts, std::vector{Doubt::chance_unknown});
    ASSERT_EQ(asked(ends, 0.94).size(), 1U);
    EXPECT_EQ(asked(ends, 0.94)[0].doubts, std::vector{Doubt::chance_low});
}

TEST_F(AskedFirst, a_second_animal_of_the_same_name) {
    const records::AnimalArrived twin{AnimalId("ivy-2"), "Ivy", "", "", EnclosureId("t-3"), true};
    ASSERT_EQ(asked(twin).size(), 1U);
    EXPECT_EQ(asked(twin)[0].kind, AskKind::same_name);
    EXPECT_TRUE(
        asked(records::AnimalArrived{AnimalId("ash"), "Ash", "", "", EnclosureId("t-3"), true}).empty());
}

template <class Kind>
Kind last_fact(const Keeper& keeper) {
    return std::get<Kind>(keeper.journal()->back().fact);
}

TEST_F(AskedFirst, that_somebody_knew_goes_on_record_with_the_reason) {
    const auto key = asked(move("ivy", "t-3"))[0].key;
    ASSERT_TRUE(record_knowingly(keeper, {{today, move("ivy", "t-3")}}, {key}, {}, now, "the tub is broken"));
    EXPECT_TRUE(last_fact<records::AnimalMoved>(keeper).knowing);
    EXPECT_EQ(last_fact<records::AnimalMoved>(keeper).knowing_reason, "the tub is broken");
    const records::AnimalLeft sale{AnimalId("sage"), "sold"};
    ASSERT_TRUE(record(sale, {asked(sale)[0].key}));
    EXPECT_TRUE(last_fact<records::AnimalLeft>(keeper).knowing) << "also without a reason";
    EXPECT_EQ(last_fact<records::AnimalLeft>(keeper).knowing_reason, "");
}

TEST_F(AskedFirst, nobody_is_said_to_have_known_who_was_not_warned) {
    records::AnimalMoved harmless = move("fern", "t-4");
    harmless.knowing = true;
    harmless.knowing_reason = "made up";
    ASSERT_TRUE(record_knowingly(keeper, {{today, harmless}}, {}, {}, now, "made up"));
    EXPECT_EQ(last_fact<records::AnimalMoved>(keeper), move("fern", "t-4"));
}

TEST_F(AskedFirst, a_reason_the_journal_cannot_hold_leaves_everything_as_it_was) {
    const auto key = asked(move("ivy", "t-3"))[0].key;
    const auto before = keeper.last_entry().value();
    const auto refused =
        record_knowingly(keeper, {{today, move("ivy", "t-3")}}, {key}, {}, now, std::string(2001, 'x'));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, base::ErrorKind::invalid_input);
    EXPECT_EQ(keeper.last_entry().value(), before);
}

/// Entries of every kind can be replaced by a move or a sale.
TEST_F(AskedFirst, a_correction_is_no_way_round) {
    const auto weighed = keeper.record({records::Weighed{AnimalId("ivy"), units::grams(900)}}, today, now);
    ASSERT_TRUE(weighed);
    for (const records::Fact& fact :
         {records::Fact(move("ivy", "t-3")), records::Fact(records::AnimalLeft{AnimalId("ivy"), "sold"})}) {
        const auto before = keeper.last_entry().value();
        const std::vector<DatedFact> correction{{today, fact, weighed->front()}};
        const auto asks = asked_first(**keeper.situation(now.today), correction, {}).value();
        ASSERT_EQ(asks.size(), 1U);
        EXPECT_EQ(asks[0].from_danger, worklist::Danger::sighted);
        const auto refused = record_knowingly(keeper, correction, {}, {}, now);
        ASSERT_FALSE(refused);
        EXPECT_EQ(refused.error().where, "acknowledged");
        EXPECT_EQ(refused.error().value, asks[0].key);
        EXPECT_EQ(keeper.last_entry().value(), before);
    }
    ASSERT_TRUE(record_knowingly(keeper, {{today, move("ivy", "t-3"), weighed->front()}},
                                 {asked(move("ivy", "t-3"))[0].key}, {}, now, "why not"));
    EXPECT_EQ(last_fact<records::AnimalMoved>(keeper).knowing_reason, "why not");
}

TEST_F(AskedFirst, a_move_put_right_asks_by_where_the_animal_comes_to_be) {
    const auto moved = record(move("fern", "t-4"));
    ASSERT_TRUE(moved);
    const std::vector<DatedFact> into_mites{{today, move("fern", "t-1"), moved->front()}};
    ASSERT_EQ(asked_first(**keeper.situation(now.today), into_mites, {})->size(), 1U);
    const std::vector<DatedFact> another_day{{today - units::Days(1), move("fern", "t-4"), moved->front()}};
    EXPECT_TRUE(asked_first(**keeper.situation(now.today), another_day, {})->empty()) << "it is where it was";
    const std::vector<DatedFact> back{{today, move("fern", "t-3"), moved->front()}};
    EXPECT_TRUE(asked_first(**keeper.situation(now.today), back, {})->empty());
}

TEST_F(AskedFirst, a_correction_of_the_arrival_is_no_end_of_the_quarantine) {
    const auto journal = keeper.journal().value();
    for (const records::Entry& entry : journal) {
        const auto* const arrived = std::get_if<records::AnimalArrived>(&entry.fact);
        if (arrived == nullptr || arrived->animal != AnimalId("moss")) continue;
        records::AnimalArrived free = *arrived;
        free.quarantine = false;
        const std::vector<DatedFact> correction{{entry.day, free, entry.id}};
        const auto asks = asked_first(**keeper.situation(now.today), correction, {}).value();
        ASSERT_EQ(asks.size(), 1U);
        EXPECT_TRUE(asks[0].needs_reason);
        EXPECT_FALSE(record_knowingly(keeper, correction, {asks[0].key}, {}, now));
        free = *arrived;
        free.taxon = "boa";
        EXPECT_TRUE(record_knowingly(keeper, {{entry.day, free, entry.id}}, {}, {}, now));
    }
}

TEST_F(AskedFirst, a_departure_put_to_another_day_keeps_what_was_said) {
    const records::AnimalLeft sale{AnimalId("ivy"), "sold"};
    const auto sold = record_knowingly(keeper, {{today, sale}}, {asked(sale)[0].key}, {}, now, "they know");
    ASSERT_TRUE(sold);
    ASSERT_TRUE(record_knowingly(keeper, {{today - units::Days(1), sale, sold->front()}}, {}, {}, now));
    EXPECT_EQ(last_fact<records::AnimalLeft>(keeper).knowing_reason, "they know");
}

TEST_F(AskedFirst, what_is_advised_to_whoever_takes_it_tells_how_far_it_may_be_trusted) {
    const auto asks = asked(records::AnimalLeft{AnimalId("ivy"), "sold"});
    ASSERT_EQ(asks.size(), 1U);
    const auto quarantine = knowledge().tables.time("quarantine");
    const auto days = std::to_string(units::at_least_days(quarantine.low).count()) + " days";
    std::size_t advice = 0;
    for (const Tell& line : asks[0].tell) {
        const std::string text = words::say(line.what);
        const bool is_on_record =
            text.find("ivy") != std::string::npos || text.find("on record") != std::string::npos;
        EXPECT_EQ(line.tag.has_value(), !is_on_record) << text;
        advice += line.tag.has_value() ? 1U : 0U;
        if (text.find(days) == std::string::npos) continue;
        EXPECT_EQ(line.tag, quarantine.tag);
        EXPECT_EQ(line.source, quarantine.source);
    }
    EXPECT_GT(advice, 3U);
}

/// The tables with a quarantine of half a day more than `days`.
Knowledge with_quarantine_of_half_a_day_more(int days) {
    std::vector<evidence::TableText> files;
    for (const base::EmbeddedFile& file : base::embedded_files()) {
        if (!file.name.starts_with("data/evidence/")) continue;
        std::string text(file.text);
        const auto row = text.find("[parameter.quarantine]");
        if (row != std::string::npos) {
            const auto low = text.find("low = ", row);
            text.replace(low, text.find('\n', low) - low, "low = " + std::to_string(days) + ".5");
        }
        files.push_back({std::string(file.name), text});
    }
    return {evidence::Tables::load(files).value(), knowledge().taxa, knowledge().ingredients};
}

TEST_F(AskedFirst, a_quarantine_is_not_over_within_its_last_day) {
    const units::Days been{30};
    const Knowledge longer = with_quarantine_of_half_a_day_more(static_cast<int>(been.count()));
    ASSERT_TRUE(keeper.record(
        {records::AnimalArrived{AnimalId("ash"), "Ash", "ball python", "", EnclosureId("t-6"), true}},
        today - been, now));
    const auto asks = [&](units::Day day) {
        return asked_first(*Situation::of(keeper.journal().value(), day, longer),
                           {{day, records::QuarantineEnded{AnimalId("ash"), ""}}},
                           [](const AnimalId&) { return std::optional(0.99); })
            .value();
    };
    ASSERT_EQ(asks(today).size(), 1U);
    EXPECT_EQ(asks(today)[0].doubts, std::vector{Doubt::too_early});
    EXPECT_TRUE(asks(today + units::Days(1)).empty());
}

TEST_F(AskedFirst, the_chance_before_is_that_of_the_records_and_nothing_is_written) {
    PlanOptions options;
    options.draws = 32;
    const auto last = keeper.last_entry().value();
    const auto done = consequence_of(**keeper.situation(now.today), {{today, move("ivy", "t-3")}}, options);
    ASSERT_TRUE(done) << done.error().message();
    EXPECT_EQ(keeper.last_entry().value(), last);
    ClearanceOptions looking;
    looking.draws = 32;
    looking.rounds = 1;
    const auto clear = keeper.ask(now, clearance_of, looking);
    ASSERT_TRUE(clear && done->clear_before && done->clear_after);
    EXPECT_EQ(done->clear_before->mean, clear->outlook.points.front().checked.clear.mean);
    EXPECT_FALSE(done->course_before);
    constexpr double of_the_steps = 1e-5;  // what the solver may be off by (decision 78)
    EXPECT_LE(done->clear_after->mean, done->clear_before->mean * (1 + of_the_steps));
    ASSERT_TRUE(keeper.record({move("ivy", "t-3")}, today, now));
    EXPECT_EQ(done->clear_after->mean,
              keeper.ask(now, clearance_of, looking)->outlook.points.front().checked.clear.mean);
}

}  // namespace
}  // namespace mitefall::service
