#include <gtest/gtest.h>

#include "records/limits.h"

#include <cmath>
#include <limits>

#include "journal.h"

namespace mitefall::records {
namespace {

using base::ErrorKind;

/// Every refusal must tell the keeper what, which limit, and what to do.
void expect_refused(const base::Result<void>& result, ErrorKind kind, const std::string& what) {
    ASSERT_FALSE(result) << "accepted; expected a refusal: " << what;
    EXPECT_EQ(result.error().kind, kind) << result.error().message();
    EXPECT_NE(result.error().what.find(what), std::string::npos) << result.error().message();
    EXPECT_FALSE(result.error().limit.empty()) << result.error().message();
    EXPECT_FALSE(result.error().remedy.empty()) << result.error().message();
}

void expect_refused_value(const Fact& fact, const std::string& what) {
    Journal journal = small_collection();
    expect_refused(journal.try_add(day(6, 1), fact), ErrorKind::invalid_input, what);
}

TEST(CheckNames, new_names_keep_to_the_alphabet) {
    for (const char* const name :
         {"", "R1", "r 1", "r_1", "r1/04", "\xC3\xA4", "12345678901234567890123456789012345678901"}) {
        expect_refused_value(room(name), "name for a room");
        expect_refused_value(tub(name), "name for an enclosure");
        expect_refused_value(snake(name, "a"), "name for an animal");
    }
    Journal journal = small_collection();
    EXPECT_TRUE(journal.try_add(day(1, 1), tub("1234567890123456789012345678901234567-xz")));
}

TEST(CheckNames, a_name_is_given_once) {
    Journal journal = small_collection();
    expect_refused(journal.try_add(day(2, 1), room("snakes")), ErrorKind::already_exists,
                   "taken by another room");
    expect_refused(journal.try_add(day(2, 1), tub("a")), ErrorKind::already_exists,
                   "taken by another enclosure");
    expect_refused(journal.try_add(day(2, 1), snake("pim", "a")), ErrorKind::already_exists,
                   "already an animal");
}

TEST(CheckNames, unknown_names_are_refused_in_every_fact_that_names_something) {
    const EnclosureId lost("lost");
    const AnimalId nobody("nobody");
    const RoomId nowhere("nowhere");
    const EnclosureId a("a");
    const auto some = units::milligrams_per_litre(10);
    const std::vector<Fact> facts{
        room("new", {nowhere}),
        tub("new", "nowhere"),
        snake("new", "lost"),
        BystanderNoted{"Tom", "cat", nowhere},
        BystanderMoved{{"Tom", {}, {}}},
        AnimalMoved{nobody, a},
        AnimalMoved{AnimalId("pim"), lost},
        AnimalLeft{nobody, ""},
        Handled{{AnimalId("pim"), nobody}, false},
        ItemShared{"tongs", lost, a},
        ItemShared{"tongs", a, lost},
        Weighed{nobody, units::grams(1)},
        ShedSeen{nobody, ShedState::shed},
        ConditionNoted{nobody, Condition::sick, true, "", ""},
        SignsNoted{nobody, {Sign::limp}, {}},
        DeathAnswered{nobody, "it was old"},
        Sighted{lost, SeenCount::one, SeenWhere::on_animal},
        Checked{lost, CheckMethod::soak, SeenCount::none},
        Treated{lost, {}, Method::spray_bedding, {}},
        Treated{a, {nobody}, Method::soak, {}},
        SubstrateChanged{lost, Substrate::paper},
        WaterMoved{lost, true},
        PaperWetted{lost},
        EnclosureStands{lost, "A", 1, 1},
        MealNoted{nobody, MealOutcome::eaten, "", 0, {}, false},
        EggsNoted{lost},
        OutsideContact{OutsideKind::show, {nowhere}, {}, ""},
        ThingKept{ThingId("hide"), ThingKind::hide, lost, {}},
        ThingKept{ThingId("hide"), ThingKind::hide, {}, nowhere},
        ThingGone{ThingId("hide")},
        ThingTreated{ThingId("hide"), ThingMethod::wash_hot},
        OutsideContact{OutsideKind::visitor, {}, {a, lost}, ""},
        VetDirection{nobody, Method::soak, "vet", "text"},
        PlanAdopted{{day(7, 1)}, {lost}, {}, {false, false}, some},
        PlanAdopted{{day(7, 1)}, {a}, {nowhere}, {false, false}, some},
        RoomTreated{nowhere, some},
        QuarantineEnded{nobody},
    };
    for (std::size_t i = 0; i < facts.size(); ++i) {
        SCOPED_TRACE(i);
        Journal journal = small_collection();
        expect_refused(journal.try_add(day(6, 1), facts[i]), ErrorKind::not_found, "there is no");
    }
}

TEST(CheckAmounts, weights_beyond_the_limits_are_refused) {
    const double infinity = std::numeric_limits<double>::infinity();
    for (const double grams : {0.0, -1.0, std::nan(""), infinity, -infinity, 200000.1}) {
        expect_refused_value(Weighed{AnimalId("pim"), units::grams(grams)}, "weight");
    }
    Journal journal = small_collection();
    EXPECT_TRUE(journal.try_add(day(6, 1), Weighed{AnimalId("pim"), units::kilograms(200)}));
    EXPECT_TRUE(journal.try_add(day(6, 1), Weighed{AnimalId("pim"), units::grams(0.1)}));
}

// ITU-T E.164: at most 15 digits; E.123: spaces between them, "+" in front of an international number.
TEST(CheckTelephone, a_number_is_digits_and_spaces_with_a_plus_in_front) {
    for (const char* const number : {"112", "+49 30 1234567", "030 1234567", "+123456789012345"}) {
        Journal journal = small_collection();
        EXPECT_TRUE(journal.try_add(day(6, 1), VeterinarianNamed{"a clinic", number})) << number;
    }
    for (const char* const number :
         {"", "12", "+", "1234567890123456", "030-123", "call me", "12+3", "+49 30 x"})
        expect_refused_value(VeterinarianNamed{"a clinic", number}, "telephone");
    expect_refused_value(VeterinarianNamed{"", "112"}, "veterinarian's name");
}

TEST(CheckAmounts, traps_are_read_every_week_to_every_two_months_or_no_longer) {
    for (const int days : {-1, 1, 6, 61, 365}) expect_refused_value(TrapRoutine{days}, "read so often");
    Journal journal = small_collection();
    for (const int days : {0, 7, 30, 60}) EXPECT_TRUE(journal.try_add(day(6, 1), TrapRoutine{days})) << days;
}

TEST(CheckAmounts, climates_beyond_the_limits_are_refused) {
    const auto with = [](double day_c, double night_c, double percent) {
        RoomAdded fact = room("new");
        fact.climate = {units::celsius(day_c), units::celsius(night_c),
                        units::relative_humidity_percent(percent)};
        return fact;
    };
    expect_refused_value(with(60.1, 20, 50), "temperature by day");
    expect_refused_value(with(std::nan(""), 20, 50), "temperature by day");
    expect_refused_value(with(30, -10.1, 50), "temperature by night");
    expect_refused_value(with(30, 20, 100.1), "humidity");
    expect_refused_value(with(30, 20, -0.1), "humidity");
    Journal journal = small_collection();
    EXPECT_TRUE(journal.try_add(day(6, 1), with(60, -10, 100)));
}

TEST(CheckAmounts, levels_and_positions_are_counted_from_one) {
    for (const int count : {0, -1, 101}) {
        expect_refused_value(EnclosureStands{EnclosureId("a"), "rack", count, 1}, "level");
        expect_refused_value(EnclosureStands{EnclosureId("a"), "rack", 1, count}, "position");
    }
    expect_refused_value(EnclosureStands{EnclosureId("a"), "", 1, 1}, "rack");
    Journal journal = small_collection();
    EXPECT_TRUE(journal.try_add(day(6, 1), EnclosureStands{EnclosureId("a"), "rack", 100, 100}));
}

TEST(CheckAmounts, areas_and_strengths) {
    for (const double area : {0.0, -1.0, std::nan(""), std::numeric_limits<double>::infinity(), 1e9}) {
        RoomAdded wide = room("new");
        wide.floor = units::square_centimetres(area);
        expect_refused_value(wide, "floor area");
        EnclosureAdded flat = tub("new");
        flat.floor = units::square_centimetres(area);
        expect_refused_value(flat, "floor area");
    }
    for (const double strength : {-1.0, std::nan(""), 1e6 + 1}) {
        const auto mixed = units::milligrams_per_litre(strength);
        expect_refused_value(Treated{EnclosureId("a"), {}, Method::spray_bedding, mixed}, "strength");
        expect_refused_value(RoomTreated{RoomId("snakes"), mixed}, "strength");
        expect_refused_value(StrengthAcknowledged{mixed}, "strength");
        expect_refused_value(VetDirection{AnimalId("pim"), Method::spray_animal, "vet", "text", mixed},
                             "strength");
        expect_refused_value(PlanAdopted{{day(7, 1)}, {}, {}, {false, false}, mixed}, "strength");
    }
    expect_refused_value(StrengthAcknowledged{}, "no strength");
}

TEST(CheckLists, empty_repeated_and_disordered) {
    const AnimalId pim("pim");
    expect_refused_value(Handled{{}, false}, "animals handled");
    expect_refused_value(Handled{std::vector<AnimalId>(501, pim), false}, "animals handled");
    expect_refused_value(Handled{{pim}, true}, "shared bag");
    expect_refused_value(Treated{EnclosureId("a"), {pim, pim}, Method::soak, {}}, "named twice");
    expect_refused_value(Treated{EnclosureId("a"), {}, Method::spray_animal, {}}, "no animal is named");
    expect_refused_value(Treated{EnclosureId("a"), {}, Method::treat_room, {}}, "treating a room");
    expect_refused_value(ItemShared{"tongs", EnclosureId("a"), EnclosureId("a")}, "did not leave");
    expect_refused_value(ItemShared{"", EnclosureId("a"), EnclosureId("b")}, "item is missing");
    expect_refused_value(room("new", {RoomId("new")}), "adjoin itself");
    expect_refused_value(Sighted{EnclosureId("a"), SeenCount::none, SeenWhere::on_animal}, "without a mite");
    expect_refused_value(PlanAdopted{{day(7, 2), day(7, 1)}, {}, {}, {false, false}, {}}, "not in order");
    expect_refused_value(PlanAdopted{{day(7, 1), day(7, 1)}, {}, {}, {false, false}, {}}, "not in order");
    expect_refused_value(TaskDone{""}, "task is missing");
    expect_refused_value(BystanderNoted{"", "", {}}, "nothing is named");
    expect_refused_value(VetDirection{pim, Method::soak, "", "text"}, "veterinarian");
    for (const int number : {-1, 101})
        expect_refused_value(VetDirection{pim, Method::soak, "vet", "text", {}, number},
                             "number of treatments");
}

// What is and is not UTF-8: RFC 3629, sections 3 and 4.
TEST(CheckTexts, only_plain_text_of_bounded_length) {
    for (const char* const text :
         {"\xFF", "\xC0\x80", "\xC3", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\x80", "bell\x07",
          "\x7F", "\xF5\x80\x80\x80", "\xE2\x82"}) {
        expect_refused_value(AnimalLeft{AnimalId("pim"), text}, "not plain text");
    }
    expect_refused_value(AnimalLeft{AnimalId("pim"), std::string("a\0b", 3)}, "not plain text");
    expect_refused_value(AnimalLeft{AnimalId("pim"), std::string(2001, 'x')}, "too long");
    Journal journal = small_collection();
    EXPECT_TRUE(journal.try_add(
        day(6, 1), AnimalLeft{AnimalId("pim"), "\xC3\xA4 \xE2\x82\xAC \xF0\x9F\x90\x8D\nline two\t!"}));
}

TEST(CheckTexts, names_are_one_line_and_do_not_turn_it_round) {
    for (const char* const text : {"a\nb", "a\rb", "a\tb", "a\u2028b", "a\u2029b", "a\u202Eb", "a\u202Ab",
                                   "a\u2066b", "a\u2069b", "a\u009Bb", "a\u0080b", "a\x1B[2J"}) {
        RoomAdded hall = room("hall");
        hall.name = text;
        expect_refused_value(hall, "not plain text");
        EnclosureAdded place = tub("c");
        place.name = text;
        expect_refused_value(place, "not plain text");
        for (std::string AnimalArrived::*const field :
             {&AnimalArrived::name, &AnimalArrived::taxon, &AnimalArrived::origin}) {
            AnimalArrived animal = snake("eve", "a");
            animal.*field = text;
            expect_refused_value(animal, "not plain text");
        }
        expect_refused_value(BystanderNoted{text, "cat", {}}, "not plain text");
        expect_refused_value(VetDirection{AnimalId("pim"), Method::soak, text, "soak it"}, "not plain text");
        expect_refused_value(ItemShared{text, EnclosureId("a"), EnclosureId("b")}, "not plain text");
    }
    expect_refused_value(AnimalLeft{AnimalId("pim"), "C1 \u009B"}, "not plain text");
    Journal journal = small_collection();
    for (const char* const text : {"\u05D7\u05D3\u05E8", "\u0635\u200F", "\u86C7 \u20AC \u00A0"}) {
        RoomAdded hall = room(("r" + std::to_string(journal.entries.size())).c_str());
        hall.name = text;
        EXPECT_TRUE(journal.try_add(day(6, 1), hall)) << text;
    }
}

TEST(CheckTexts, names_of_an_older_file_are_shown_on_one_line) {
    EXPECT_EQ(on_one_line("a\r\nb\u202Ec\u009Bd\u2028e\x1B[m"), "a  bc d e [m");
    EXPECT_EQ(on_one_line("\xFF\u05D7"), " \u05D7");
    std::vector<Entry> journal = small_collection().entries;
    std::get<AnimalArrived>(journal[3].fact).name = "Pim\nALL CLEAR";
    EXPECT_EQ(collection_on(journal, day(6, 1)).animals.at(AnimalId("pim")).name, "Pim ALL CLEAR");
}

TEST(CheckDays, neither_the_future_nor_before_the_thing_existed) {
    Journal journal = small_collection();
    const Weighed fact{AnimalId("pim"), units::grams(800)};
    journal.today = day(6, 1);
    EXPECT_TRUE(journal.try_add(day(6, 1), fact));
    expect_refused(journal.try_add(day(6, 2), fact), ErrorKind::invalid_input, "still to come");
    expect_refused(journal.try_add(Day(std::chrono::year(1899) / 12 / 31), fact), ErrorKind::invalid_input,
                   "too long ago");
    const auto early = journal.try_add(day(1, 1) - units::Days(1), fact);
    expect_refused(early, ErrorKind::conflict, "not there yet");
    EXPECT_NE(early.error().limit.find("1 Jan 2026"), std::string::npos);
}

TEST(CheckAnimals, what_has_left_is_not_moved_weighed_or_handled) {
    Journal journal = small_collection();
    journal.add(day(3, 1), AnimalLeft{AnimalId("pim"), "sold"});
    const auto moved = journal.try_add(day(3, 2), AnimalMoved{AnimalId("pim"), EnclosureId("b")});
    expect_refused(moved, ErrorKind::conflict, "no longer there");
    EXPECT_NE(moved.error().limit.find("1 Mar 2026"), std::string::npos);
    expect_refused(journal.try_add(day(3, 2), Handled{{AnimalId("pim")}, false}), ErrorKind::conflict,
                   "no longer there");
    EXPECT_TRUE(journal.try_add(day(2, 28), AnimalMoved{AnimalId("pim"), EnclosureId("b")}));
}

TEST(CheckAnimals, treated_where_they_were) {
    Journal journal = small_collection();
    expect_refused(
        journal.try_add(day(3, 1), Treated{EnclosureId("a"), {AnimalId("juno")}, Method::soak, {}}),
        ErrorKind::conflict, "not in this enclosure");
}

TEST(CheckAnimals, a_condition_ends_only_after_it_began) {
    Journal journal = small_collection();
    journal.add(day(3, 1), ConditionNoted{AnimalId("pim"), Condition::reacted, true, "ivermectin", ""});
    expect_refused(journal.try_add(
                       day(3, 2), ConditionNoted{AnimalId("pim"), Condition::reacted, false, "fipronil", ""}),
                   ErrorKind::conflict, "not on record as reacted");
}

TEST(CheckAnimals, a_quarantine_ends_only_where_there_is_one) {
    Journal journal = small_collection();
    AnimalArrived newcomer = snake("nox", "a");
    newcomer.quarantine = true;
    journal.add(day(3, 1), newcomer);
    const Fact ends = QuarantineEnded{AnimalId("nox")};
    expect_refused(journal.try_add(day(4, 1), QuarantineEnded{AnimalId("pim")}), ErrorKind::conflict,
                   "not in quarantine");
    EXPECT_TRUE(journal.try_add(day(4, 1), ends));
    expect_refused(journal.try_add(day(4, 2), ends), ErrorKind::conflict, "not in quarantine");
}

TEST(CheckCorrections, of_what_is_not_there_or_was_corrected) {
    Journal journal = small_collection();
    const Weighed fact{AnimalId("pim"), units::grams(800)};
    const FactId first = journal.add(day(3, 1), fact);
    expect_refused(journal.try_add(day(3, 1), fact, 99), ErrorKind::not_found, "no entry to correct");
    expect_refused(journal.try_add(day(3, 1), fact, first + 1), ErrorKind::not_found, "no entry to correct");
    const FactId second = journal.add(day(3, 1), fact, first);
    const auto again = journal.try_add(day(3, 1), fact, first);
    expect_refused(again, ErrorKind::conflict, "already corrected");
    EXPECT_NE(again.error().remedy.find(std::to_string(second)), std::string::npos);
}

TEST(CheckCorrections, withdrawals_that_do_not_fit_are_refused) {
    Journal journal = small_collection();
    expect_refused(journal.try_add(day(3, 1), Withdrawn{"?"}), ErrorKind::invalid_input,
                   "nothing is withdrawn");
    const FactId weighed = journal.add(day(3, 1), Weighed{AnimalId("pim"), units::grams(800)});
    const FactId withdrawal = journal.add(day(3, 1), Withdrawn{"oops"}, weighed);
    expect_refused(journal.try_add(day(3, 1), Withdrawn{"no"}, withdrawal), ErrorKind::invalid_input,
                   "cannot be withdrawn");
    EXPECT_TRUE(journal.try_add(day(3, 1), Weighed{AnimalId("pim"), units::grams(810)}, withdrawal));
}

TEST(CheckCorrections, the_rest_of_the_journal_must_still_hold) {
    Journal journal = small_collection();
    const FactId arrival = journal.add(day(2, 1), snake("noa", "a"));
    const FactId weighed = journal.add(day(3, 1), Weighed{AnimalId("noa"), units::grams(800)});
    const auto refused = journal.try_add(day(3, 2), Withdrawn{"never came"}, arrival);
    expect_refused(refused, ErrorKind::conflict, "entry 7 of 2026-03-01 would no longer fit");
    EXPECT_NE(refused.error().remedy.find("entry 7"), std::string::npos);
    expect_refused(journal.try_add(day(4, 1), snake("noa", "a"), arrival), ErrorKind::conflict,
                   "would no longer fit");
    EXPECT_TRUE(journal.try_add(day(3, 1), snake("noa", "b"), arrival))
        << "on the day it was weighed, and before";
    journal.add(day(3, 2), Withdrawn{"another animal"}, weighed);
    EXPECT_TRUE(journal.try_add(day(3, 2), Withdrawn{"never came"}, 8));
    EXPECT_FALSE(collection_on(journal.entries, day(12, 1)).animals.contains(AnimalId("noa")));
}

TEST(CheckCorrections, a_late_fact_must_not_contradict_what_came_after) {
    Journal journal = small_collection();
    journal.add(day(5, 1), Weighed{AnimalId("pim"), units::grams(800)});
    expect_refused(journal.try_add(day(4, 1), AnimalLeft{AnimalId("pim"), "sold"}), ErrorKind::conflict,
                   "would no longer fit");
}

TEST(CheckMany, all_are_seen_together_and_the_faulty_one_is_named) {
    const std::vector<Entry> good{{0, day(1, 1), "", room("snakes"), {}},
                                  {0, day(1, 1), "", tub("a"), {}},
                                  {0, day(1, 1), "", snake("pim", "a"), {}}};
    EXPECT_TRUE(check_facts({}, good, day(1, 1)));
    std::vector<Entry> bad = good;
    bad.push_back({0, day(1, 1), "", snake("juno", "b"), {}});
    const auto refused = check_facts({}, bad, day(1, 1));
    expect_refused(refused, ErrorKind::not_found, "no enclosure");
    EXPECT_EQ(refused.error().where, "fact 4 of 4");
    EXPECT_EQ(refused.error().value, "b");
}

TEST(CheckMany, numbers_are_never_reused) {
    Journal journal = small_collection();
    const Entry reused{3, day(2, 1), "", tub("c"), {}};
    expect_refused(check_fact(journal.entries, reused, day(2, 1)), ErrorKind::conflict, "taken");
}

// "ü" is two bytes: 2,000 bytes may end within one.
TEST(Text, of_the_program_is_cut_between_letters_where_it_is_too_long) {
    EXPECT_EQ(cut_to_fit("short"), "short");
    for (const char* const start : {"", "x"}) {
        std::string text = start;
        while (text.size() < 2500) text += "\xC3\xBC";
        const std::string cut = cut_to_fit(text);
        EXPECT_TRUE(check_text("reason", cut)) << check_text("reason", cut).error().message();
        EXPECT_GT(cut.size(), 1990U);
        EXPECT_EQ(cut.substr(cut.size() - 4), " ...");
        EXPECT_FALSE(check_text("reason", text));
    }
}

TEST(CheckAmounts, of_a_meal_all_may_be_unknown_and_nothing_impossible) {
    Journal journal = small_collection();
    const MealNoted meal{AnimalId("pim"), MealOutcome::eaten, "", 0, {}, false};
    EXPECT_TRUE(journal.try_add(day(6, 1), meal));
    MealNoted odd = meal;
    odd.number = -1;
    expect_refused_value(odd, "number of prey");
    odd.number = 1001;
    expect_refused_value(odd, "number of prey");
    odd = meal;
    odd.mass = units::grams(-5);
    expect_refused_value(odd, "weight");
    odd = meal;
    odd.prey = "mouse\nand more";
    expect_refused_value(odd, "prey");
}

}  // namespace
}  // namespace mitefall::records
