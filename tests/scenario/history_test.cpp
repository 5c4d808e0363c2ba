#include "scenario/history.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <set>

#include "exposure/contacts.h"
#include "mites/rates.h"
#include "network/classes.h"
#include "records/journal.h"
#include "records/task_key.h"
#include "scenario/seen.h"
#include "shared/fixtures.h"

namespace mitefall::scenario {
namespace {

using namespace records;

constexpr double look_back = 60;  // days
using units::Days;
const EnclosureId sighted("a");

/// Two rooms, three tubs, four snakes (two in "b"), a sighting in "a" on the last day.
class Recorded {
  public:
    Recorded() : journal_(small_collection()) {
        journal_.add(day(1, 1), room("hall"));
        journal_.add(day(1, 1), tub("c", "hall"));
        journal_.add(day(1, 1), snake("otto", "b"));
        journal_.add(day(1, 1), snake("nox", "c"));
    }

    Recorded& on(Day when, Fact fact) {
        journal_.add(when, std::move(fact));
        return *this;
    }

    RecordedCase read(const mites::FixedParameters& fixed = mites::fixed_parameters(fixtures::tables())) {
        journal_.add(last, Sighted{sighted, SeenCount::one, SeenWhere::on_animal});
        return case_from_records(journal_.entries, last, units::days_long(look_back), fixed).value();
    }

    [[nodiscard]] const std::vector<Entry>& entries() const { return journal_.entries; }
    static inline const Day last = day(3, 1);

  private:
    Journal journal_;
};

template <class T>
std::vector<std::pair<double, T>> all_of(const RecordedCase& known) {
    std::vector<std::pair<double, T>> found;
    for (const Event& event : known.scenario.events) {
        if (const auto* const one = std::get_if<T>(&event.what)) found.emplace_back(event.time, *one);
    }
    return found;
}

PlaceIndex place(const RecordedCase& known, const char* enclosure) {
    return known.enclosures.at(EnclosureId(enclosure));
}

std::vector<AnimalId> animals(std::initializer_list<const char*> names) {
    return {names.begin(), names.end()};
}

using Pairs = std::set<std::pair<PlaceIndex, PlaceIndex>>;
Pairs pairs_of(const RecordedCase& known) {
    Pairs pairs;
    for (const auto& [time, contact] : all_of<Contact>(known)) pairs.emplace(contact.from, contact.to);
    return pairs;
}

TEST(History, a_treated_room_is_treated_in_the_model) {
    Recorded recorded;
    recorded.on(day(2, 10), RoomTreated{RoomId("hall"), units::milligrams_per_litre(5000)});
    const RecordedCase known = recorded.read();
    const auto kills = all_of<Kill>(known);
    ASSERT_EQ(kills.size(), 1U);
    const auto& [time, kill] = kills.front();
    EXPECT_EQ(time, known.time_of(day(2, 10)));
    EXPECT_EQ(kill.place, known.rooms.at(RoomId("hall")));
    EXPECT_EQ(kill.reach, mites::Reach::mobile_nest);
    EXPECT_EQ(kill.chance.parameter, &mites::MiteParameters::kill_room_treatment);
}

RecordedCase three_handled(bool shared_bag) {
    Recorded recorded;
    recorded.on(day(2, 10), Handled{animals({"pim", "juno", "nox"}), shared_bag});
    return recorded.read();
}

TEST(History, hands_carry_from_each_animal_to_all_handled_later) {
    const RecordedCase known = three_handled(false);
    const PlaceIndex a = place(known, "a");
    const PlaceIndex b = place(known, "b");
    const PlaceIndex c = place(known, "c");
    EXPECT_EQ(pairs_of(known), (Pairs{{a, b}, {a, c}, {b, c}}));
    for (const auto& [time, contact] : all_of<Contact>(known)) {
        EXPECT_EQ(contact.reach, mites::Reach::on_animal);
        EXPECT_EQ(contact.chance.parameter, &mites::MiteParameters::contact_handled_after);
        EXPECT_EQ(contact.chance.factor, contact.from == b ? 0.5 : 1.0) << "two animals live in b";
    }
}

TEST(History, a_shared_bag_carries_both_ways) {
    const RecordedCase known = three_handled(true);
    const PlaceIndex a = place(known, "a");
    const PlaceIndex b = place(known, "b");
    const PlaceIndex c = place(known, "c");
    EXPECT_EQ(pairs_of(known), (Pairs{{a, b}, {b, a}, {a, c}, {c, a}, {b, c}, {c, b}}));
    for (const auto& [time, contact] : all_of<Contact>(known)) {
        EXPECT_EQ(contact.chance.parameter, &mites::MiteParameters::contact_shared_bag);
    }
}

TEST(History, who_leaves_on_the_day_of_a_handling_took_part_in_it) {
    Recorded recorded;
    recorded.on(day(2, 10), Handled{animals({"pim", "nox"}), true});
    recorded.on(day(2, 10), AnimalLeft{AnimalId("pim"), "sold"});
    const RecordedCase known = recorded.read();
    const PlaceIndex a = place(known, "a");
    const PlaceIndex c = place(known, "c");
    EXPECT_EQ(pairs_of(known), (Pairs{{a, c}, {c, a}}));
    const auto leaves = all_of<AnimalLeaves>(known);
    ASSERT_EQ(leaves.size(), 1U);
    EXPECT_EQ(leaves[0].first, known.time_of(day(2, 10)));
}

TEST(History, animals_of_one_enclosure_do_not_carry_to_one_another) {
    Recorded recorded;
    recorded.on(day(2, 10), Handled{animals({"juno", "otto"}), true});
    EXPECT_TRUE(all_of<Contact>(recorded.read()).empty());
}

// The enclosures in touch are those that tracing links.
TEST(History, contacts_are_those_of_exposure) {
    for (const bool bag : {false, true}) {
        Recorded recorded;
        recorded.on(day(2, 1), Handled{animals({"otto", "pim", "nox", "juno"}), bag});
        recorded.on(day(2, 2), AnimalMoved{AnimalId("otto"), EnclosureId("c")});
        recorded.on(day(2, 3), Handled{animals({"otto", "pim", "otto"}), bag});
        recorded.on(day(2, 4), ItemShared{"tongs", EnclosureId("a"), EnclosureId("c")});
        const RecordedCase known = recorded.read();
        const Collection collection = collection_on(recorded.entries(), Recorded::last);
        const exposure::Places places(collection, recorded.entries(), known.origin);
        const exposure::ContactChances chances(fixtures::tables());
        std::set<std::tuple<double, std::string, std::string>> traced;
        for (const auto& contact :
             exposure::read_contacts(recorded.entries(), places, chances, known.origin, Recorded::last)
                 .contacts) {
            if (contact.kind == exposure::ContactKind::moved) continue;
            traced.emplace(contact.day, places.enclosures[contact.from]->name,
                           places.enclosures[contact.to]->name);
        }
        std::set<std::tuple<double, std::string, std::string>> modelled;
        for (const auto& [time, contact] : all_of<Contact>(known)) {
            modelled.emplace(time, known.scenario.places[contact.from].name,
                             known.scenario.places[contact.to].name);
        }
        EXPECT_GE(traced.size(), 6U);
        EXPECT_EQ(modelled, traced) << (bag ? "bag" : "hands");
    }
}

// Up to the sighting it may explain it; later it may bring more; before the days looked back on it is over.
TEST(History, contact_with_the_outside_may_explain_what_was_seen_only_up_to_that_day) {
    Recorded recorded;
    const OutsideContact show{OutsideKind::show, {RoomId("hall")}, {EnclosureId("a")}, ""};
    recorded.on(Recorded::last - Days(41), show);
    recorded.on(Recorded::last - Days(40), show);
    recorded.on(Recorded::last, {OutsideContact{OutsideKind::shop, {}, {}, ""}});
    recorded.read();
    const RecordedCase known = case_from_records(recorded.entries(), Recorded::last, units::days_long(40),
                                                 mites::fixed_parameters(fixtures::tables()))
                                   .value();
    ASSERT_EQ(known.outside.size(), 2U);
    EXPECT_EQ(known.outside[0].time, 0);
    EXPECT_EQ(known.outside[0].places, (std::vector{known.rooms.at(RoomId("hall")), place(known, "a")}));
    EXPECT_EQ(known.outside[1].time, known.from);
    EXPECT_EQ(known.outside[1].places.size(), 2U) << "nobody knows where: any of the two rooms";
    EXPECT_TRUE(all_of<Import>(known).empty());
}

TEST(History, contact_after_the_sighting_brings_more_with_its_chance) {
    Journal journal = small_collection();
    const Day seen = Recorded::last;
    journal.add(seen, Sighted{sighted, SeenCount::one, SeenWhere::on_animal});
    journal.add(seen + Days(3),
                OutsideContact{OutsideKind::second_hand_wood, {}, {EnclosureId("a"), EnclosureId("b")}, ""});
    const auto fixed = mites::fixed_parameters(fixtures::tables());
    const RecordedCase known =
        case_from_records(journal.entries, seen + Days(5), units::days_long(look_back), fixed).value();
    EXPECT_TRUE(known.outside.empty());
    const auto imports = all_of<Import>(known);
    ASSERT_EQ(imports.size(), 2U);
    // Row outside_second_hand_wood is 0.05. A Poisson stream of one day into two places brings none with
    // chance exp(-2 rate) = 0.95.
    for (const auto& [time, import] : imports) {
        EXPECT_EQ(time, known.from + 3);
        EXPECT_EQ(import.until, time + 1);
        EXPECT_NEAR(import.rate.fixed, -std::log(0.95) / 2, 1e-12);
    }
    EXPECT_TRUE(check_scenario(known.scenario).has_value());
    // What one animal may have brought is not what came in later.
    const RecordedCase since = recorded_since(journal.entries, seen + Days(5), seen, fixed);
    EXPECT_TRUE(all_of<Import>(since).empty());
}

/// The kills of the nest by things, as parameter and share.
std::vector<std::pair<mites::ParameterMember, double>> kills_in(const RecordedCase& known,
                                                                mites::Reach reach) {
    std::vector<std::pair<mites::ParameterMember, double>> kills;
    for (const auto& [time, kill] : all_of<Kill>(known)) {
        const auto part = kill.chance.parameter;
        const bool is_thing =
            part == &mites::MiteParameters::nest_in_thing || part == &mites::MiteParameters::nest_on_thing;
        if (is_thing && kill.reach == reach) kills.emplace_back(part, kill.part);
    }
    return kills;
}

// A hide that was washed takes its part of the nest away, eggs included; a hook that was sprayed a smaller
// part, and its eggs live.
TEST(History, a_thing_takes_its_part_of_the_nest_away_on_the_day_it_was_treated_and_not_before) {
    const Day when = Recorded::last - Days(3);
    const ThingKept hide{ThingId("hide"), ThingKind::hide, sighted, {}};
    const ThingKept hook{ThingId("hook"), ThingKind::hook, {}, RoomId("snakes")};
    Recorded untouched;
    EXPECT_EQ(untouched.on(day(1, 2), hide).on(when, hook).read().scenario.events.size(),
              Recorded().read().scenario.events.size())
        << "to be there is no treatment";
    Recorded recorded;
    recorded.on(day(1, 2), hide).on(when, hook);
    recorded.on(when, ThingTreated{hide.thing, ThingMethod::wash_hot});
    recorded.on(when, ThingTreated{hide.thing, ThingMethod::freeze});  // told twice, done once
    recorded.on(when, ThingTreated{hook.thing, ThingMethod::spray_and_air});
    const RecordedCase known = recorded.read();
    using M = mites::MiteParameters;
    const double wood = 0.6;  // row kill_permethrin_nest_porous
    using Kills = std::vector<std::pair<mites::ParameterMember, double>>;
    EXPECT_EQ(kills_in(known, mites::Reach::mobile_nest).size(), 2U);
    EXPECT_EQ(kills_in(known, mites::Reach::eggs), (Kills{{&M::nest_in_thing, 1}}));
    for (const auto& [part, share] : kills_in(known, mites::Reach::mobile_nest))
        EXPECT_EQ(share, part == &M::nest_in_thing ? 1 : wood);
    EXPECT_TRUE(check_scenario(known.scenario).has_value());
}

// What stood in the old tub is not in the nest of the new one.
TEST(History, a_thing_of_a_tub_left_behind_that_day_is_not_counted_twice) {
    const Day when = Recorded::last - Days(3);
    Recorded recorded;
    recorded.on(day(1, 2), ThingKept{ThingId("hide"), ThingKind::hide, sighted, {}});
    recorded.on(when, ThingTreated{ThingId("hide"), ThingMethod::wash_hot});
    recorded.on(when, Treated{sighted, {}, Method::fresh_tub, {}});
    EXPECT_TRUE(kills_in(recorded.read(), mites::Reach::mobile_nest).empty());
}

// Of ten hides five count: with more, things would hold more of a nest than a clean tub leaves behind.
TEST(History, many_things_hold_no_more_of_a_nest_than_five) {
    const Day when = Recorded::last - Days(3);
    Recorded recorded;
    for (const char* const name : {"h0", "h1", "h2", "h3", "h4", "h5", "h6", "h7", "h8", "h9"}) {
        recorded.on(day(1, 2), ThingKept{ThingId(name), ThingKind::hide, sighted, {}});
        recorded.on(when, ThingTreated{ThingId(name), ThingMethod::wash_hot});
    }
    EXPECT_EQ(kills_in(recorded.read(), mites::Reach::eggs).size(), 5U);
    for (const mites::MiteParameters& draw : mites::draw_parameters(fixtures::tables(), 256, 1).draws) {
        EXPECT_LE(draw.nest_on_thing, draw.nest_in_thing);
        EXPECT_LE(1 - std::pow(1 - draw.nest_in_thing, 5), 0.85) << "the low end of fresh_tub_nest";
    }
}

// What each way of looking can show at all: the table of docs/model.md, section 7.
TEST(History, every_way_of_looking_has_chances_of_its_own) {
    Recorded recorded;
    for (const auto method :
         {CheckMethod::look_over, CheckMethod::soak, CheckMethod::wipe, CheckMethod::paper_trap})
        recorded.on(day(2, 10), Checked{EnclosureId("a"), method, SeenCount::none});
    const auto checks = all_of<CleanCheck>(recorded.read());
    ASSERT_EQ(checks.size(), 4U);
    const mites::FixedParameters fixed = mites::fixed_parameters(fixtures::tables());
    const mites::MiteParameters& mode = fixtures::small_ensemble().mode;
    const auto chance = [&](std::size_t i, mites::Activity activity) {
        return scenario::chance_to_be_seen(checks[i].second, activity, fixed, mode);
    };
    const auto of_one = [](double light) { return 1 - std::cbrt(1 - light); };  // 3 mites
    EXPECT_NEAR(chance(0, mites::Activity::adult_feeding), of_one(0.5), 1e-12);
    EXPECT_NEAR(chance(0, mites::Activity::adult_laying), 0.1 * of_one(0.5), 1e-12);
    EXPECT_NEAR(chance(1, mites::Activity::protonymph_feeding), of_one(0.65), 1e-12);
    EXPECT_EQ(chance(1, mites::Activity::adult_seeking), 0) << "a soak says nothing of the enclosure";
    EXPECT_NEAR(chance(2, mites::Activity::adult_feeding), of_one(0.6), 1e-12);
    EXPECT_EQ(chance(3, mites::Activity::adult_feeding), 0) << "a trap says nothing of the animal";
    EXPECT_NEAR(chance(3, mites::Activity::adult_seeking), 0.15, 1e-12);
    for (std::size_t i = 0; i < checks.size(); ++i) EXPECT_EQ(chance(i, mites::Activity::egg), 0);
}

// detection_heavy is not drawn, because the light row says it too: a heavy infestation (1 - 0.95 is left
// unseen) is then one of about 13 mites, and its range belongs to 8 to 22.
TEST(History, a_look_over_finds_a_heavy_infestation_as_the_evidence_says) {
    const auto& rows = fixtures::tables().rows();
    const auto heavy = std::find_if(rows.begin(), rows.end(),
                                    [](const auto& row) { return row.cited.key == "detection_heavy"; });
    ASSERT_NE(heavy, rows.end());
    const double one = mites::detection_per_mite(mites::fixed_parameters(fixtures::tables()),
                                                 fixtures::small_ensemble().mode);
    const auto mites_for = [&](double chance) { return std::log1p(-chance) / std::log1p(-one); };
    EXPECT_NEAR(mites_for(heavy->cited.value), 13, 0.5);
    EXPECT_GT(mites_for(heavy->cited.low), 8);
    EXPECT_LT(mites_for(heavy->cited.high), 22);
}

double damp_time(const std::pair<double, Residue>& residue) {
    return residue.second.damp_until - residue.first;
}

Treated bedding_of_a() {
    return {EnclosureId("a"), {}, Method::spray_bedding, units::milligrams_per_litre(10)};
}

PlanAdopted course_that_keeps_damp(Day from) {
    return {{from}, {EnclosureId("a")}, {}, {false, true}, units::milligrams_per_litre(10)};
}

TEST(History, paper_is_kept_damp_only_from_the_day_the_plan_was_adopted) {
    const Day today = Recorded::last;
    Recorded recorded;
    recorded.on(today - Days(2), bedding_of_a()).on(today, bedding_of_a());
    recorded.on(today, course_that_keeps_damp(today));
    const auto residues = all_of<Residue>(recorded.read());
    ASSERT_EQ(residues.size(), 2U);
    EXPECT_EQ(damp_time(residues[0]), 1);
    EXPECT_EQ(damp_time(residues[1]), units::in_days(fixtures::tables().time("water_out_max").value))
        << "what is still to come is taken to be done";
}

// Sprayed five days ago: wetted on the next two days, not on the third, again on the fourth. Today the dish
// has long had to be back.
TEST(History, paper_dries_where_nobody_wetted_it_again) {
    const Day today = Recorded::last;
    const Day sprayed = today - Days(5);
    enum class Told { by_fact, by_tick_alone, by_both };
    for (const Told told : {Told::by_fact, Told::by_tick_alone, Told::by_both}) {
        SCOPED_TRACE(static_cast<int>(told));
        Recorded recorded;
        recorded.on(sprayed, course_that_keeps_damp(sprayed)).on(sprayed, bedding_of_a());
        for (const int after : {1, 2, 4}) {
            const Day day = sprayed + Days(after);
            if (told != Told::by_tick_alone) recorded.on(day, PaperWetted{EnclosureId("a")});
            if (told != Told::by_fact)
                recorded.on(day, TaskDone{records::to_text(day, records::TaskPart::redampen, "a")});
        }
        const auto residues = all_of<Residue>(recorded.read());
        ASSERT_EQ(residues.size(), 2U);
        EXPECT_EQ(damp_time(residues[0]), 3);
        EXPECT_EQ(residues[1].first - residues[0].first, 4);
        EXPECT_EQ(damp_time(residues[1]), 1);
        EXPECT_EQ(residues[1].second.level.in(fixtures::small_ensemble().mode),
                  residues[0].second.level.in(fixtures::small_ensemble().mode));
    }
}

TEST(History, paper_whose_wetting_is_skipped_today_dries_today) {
    const Day today = Recorded::last;
    Recorded recorded;
    recorded.on(today - Days(1), course_that_keeps_damp(today - Days(1))).on(today - Days(1), bedding_of_a());
    recorded.on(today - Days(1), WaterMoved{EnclosureId("a"), true});
    EXPECT_EQ(damp_time(all_of<Residue>(recorded.read()).at(0)), 3) << "as long as the dish may be out";
    recorded.on(today, TaskSkipped{records::to_text(today, records::TaskPart::redampen, "a"), "no time"});
    EXPECT_EQ(damp_time(all_of<Residue>(recorded.read()).at(0)), 1);
}

TEST(History, paper_dries_in_a_day_where_the_plan_does_not_keep_it_damp) {
    const Treated sprayed{EnclosureId("a"), {}, Method::spray_bedding, units::milligrams_per_litre(10)};
    Recorded recorded;
    recorded.on(day(2, 10),
                PlanAdopted{{day(2, 10)}, {EnclosureId("a")}, {}, {false, false}, sprayed.strength});
    recorded.on(day(2, 11), sprayed);
    const auto residues = all_of<Residue>(recorded.read());
    ASSERT_EQ(residues.size(), 1U);
    EXPECT_EQ(damp_time(residues[0]), 1);
}

TEST(Actions, every_figure_of_a_method_is_a_parameter_of_the_model) {
    for (const records::MethodRow& row : records::method_rows) {
        for (const records::KillKeys& keys : {row.kills.on_animal, row.kills.nest, row.kills.eggs}) {
            for (const auto key : {keys.sealed, keys.porous, keys.home_sealed, keys.home_porous})
                EXPECT_TRUE(key.empty() || mites::find_parameter(key.text()) != nullptr) << key.text();
        }
    }
}

TEST(History, how_long_treatments_last_comes_from_the_parameters) {
    mites::FixedParameters fixed = mites::fixed_parameters(fixtures::tables());
    fixed.wet.dish_out = Days(2);
    mites::days_in_blood(fixed, records::Method::oral_afoxolaner) = 21;
    mites::days_in_blood(fixed, records::Method::oral_fluralaner) = 70;
    Recorded recorded;
    recorded.on(Recorded::last, course_that_keeps_damp(Recorded::last)).on(Recorded::last, bedding_of_a());
    recorded.on(day(2, 3), Treated{EnclosureId("a"), animals({"pim"}), records::Method::oral_afoxolaner, {}});
    recorded.on(day(2, 4), Treated{EnclosureId("a"), animals({"pim"}), records::Method::oral_fluralaner, {}});
    const RecordedCase known = recorded.read(fixed);
    EXPECT_EQ(damp_time(all_of<Residue>(known).at(0)), 2);
    const auto drugs = all_of<Medicated>(known);
    ASSERT_EQ(drugs.size(), 2U);
    ASSERT_EQ(drugs[1].second.animals.size(), 1U) << "the animals of the enclosure";
    EXPECT_EQ(drugs[0].second.animals[0].at(0).until - drugs[0].first, 21);
    ASSERT_EQ(drugs[1].second.animals[0].size(), 1U) << "the longer outlasts the shorter";
    EXPECT_EQ(drugs[1].second.animals[0][0].until - drugs[1].first, 70);
}

// The day the book was opened is not the day every animal came.
TEST(History, animals_of_the_first_day_on_record_were_there_before) {
    Recorded recorded;
    recorded.on(day(2, 20), snake("newcomer", "c"));
    const RecordedCase known = recorded.read();
    ASSERT_EQ(known.arrivals.size(), 1U);
    EXPECT_EQ(known.arrivals[0].animal, AnimalId("newcomer"));
    EXPECT_EQ(known.arrivals[0].time, known.time_of(day(2, 20)));
    EXPECT_EQ(known.scenario.places[place(known, "b")].animals, 2);
    EXPECT_EQ(known.scenario.places[place(known, "c")].animals, 1);
    EXPECT_EQ(known.time_of(Recorded::last), look_back) << "day 0 is the look-back before the sighting";
}

TEST(History, looks_up_to_the_sighting_are_in_order_and_clean_ones_of_that_day_are_left_to_the_sweep) {
    Recorded recorded;
    const auto check = [](const char* where, SeenCount count) {
        return Checked{EnclosureId(where), CheckMethod::look_over, count};
    };
    recorded.on(day(2, 10), check("b", SeenCount::none));
    recorded.on(day(2, 11), RoomTreated{RoomId("hall"), {}});
    recorded.on(day(2, 12), check("c", SeenCount::one));
    recorded.on(Recorded::last, check("c", SeenCount::none));
    const RecordedCase known = recorded.read();
    ASSERT_EQ(known.looks.size(), 3U);
    EXPECT_EQ(known.looks[0].place, place(known, "b"));
    EXPECT_EQ(known.looks[0].seen, SeenCount::none);
    EXPECT_EQ(known.looks[1].seen, SeenCount::one);
    EXPECT_GT(known.looks[1].next_event, known.looks[0].next_event) << "the room was treated between them";
    EXPECT_EQ(known.looks[2].time, known.from);
    EXPECT_EQ(known.looks[2].where, LookedAt::animal);
    EXPECT_EQ(all_of<CleanCheck>(known).back().first, known.from);
    EXPECT_EQ(known.sighted, (std::vector<PlaceIndex>{place(known, "c"), place(known, "a")}));
}

TEST(History, without_a_sighting_the_belief_is_of_today) {
    const Journal journal = small_collection();
    const auto known = case_from_records(journal.entries, day(3, 1), units::days_long(look_back),
                                         mites::fixed_parameters(fixtures::tables()));
    ASSERT_TRUE(known);
    EXPECT_EQ(known->from, look_back);
    EXPECT_TRUE(known->looks.empty());
    EXPECT_TRUE(known->sighted.empty());
}

TEST(FixedParameters, of_treatments_are_those_of_the_evidence) {
    const mites::FixedParameters fixed = mites::fixed_parameters(fixtures::tables());
    const evidence::Tables& tables = fixtures::tables();
    EXPECT_EQ(fixed.published_strength_low,
              units::in_milligrams_per_litre(tables.strength("published_strength_low").value));
    EXPECT_EQ(fixed.strength_without_caution,
              units::in_milligrams_per_litre(tables.strength("strength_without_caution").value));
    EXPECT_EQ(fixed.home_strength, units::in_milligrams_per_litre(tables.strength("home_strength").value));
    EXPECT_EQ(mites::days_in_blood(fixed, records::Method::oral_afoxolaner),
              units::in_days(tables.time("oral_days_afoxolaner").value));
    EXPECT_EQ(mites::days_in_blood(fixed, records::Method::oral_fluralaner),
              units::in_days(tables.time("oral_days_fluralaner").value));
    EXPECT_EQ(fixed.wet.damp, Days(std::lround(units::in_days(tables.time("damp_days").value))));
    const mites::Ensemble ensemble = mites::draw_parameters(tables, branching::lane_count, 1);
    EXPECT_EQ(ensemble.fixed.wet.damp, fixed.wet.damp);
    EXPECT_EQ(ensemble.fixed.plateau_ends, fixed.plateau_ends);
    EXPECT_EQ(mites::fixed_parameters(tables, mites::DevelopmentForm::gallinae).form,
              mites::DevelopmentForm::gallinae);
}

const std::vector<Fact> a_busy_day{
    Treated{EnclosureId("b"), animals({"juno"}), records::Method::oral_fluralaner, {}},
    Treated{EnclosureId("b"), animals({"otto"}), records::Method::oral_fluralaner, {}},
    Treated{EnclosureId("b"), animals({"otto"}), Method::wipe, {}},
    Treated{EnclosureId("a"), animals({"pim"}), Method::spray_animal, units::milligrams_per_litre(10)},
    Treated{EnclosureId("a"), {}, Method::spray_bedding, units::milligrams_per_litre(10)},
    Treated{EnclosureId("a"), {}, Method::spray_bedding, units::milligrams_per_litre(5)},
    SubstrateChanged{EnclosureId("a"), Substrate::paper},
    RoomTreated{RoomId("hall"), {}},
    Handled{animals({"pim", "juno"}), false},
    ItemShared{"hook", EnclosureId("a"), EnclosureId("c")},
    AnimalMoved{AnimalId("nox"), EnclosureId("b")},
    Checked{EnclosureId("c"), CheckMethod::look_over, SeenCount::none},
    Sighted{EnclosureId("b"), SeenCount::few, SeenWhere::on_animal}};

void expect_same(const RecordedCase& a, const RecordedCase& b) {
    EXPECT_EQ(network::signature_of(a.scenario), network::signature_of(b.scenario));
    ASSERT_EQ(a.looks.size(), b.looks.size());
    for (std::size_t i = 0; i < a.looks.size(); ++i) {
        EXPECT_EQ(a.looks[i].place, b.looks[i].place);
        EXPECT_EQ(a.looks[i].seen, b.looks[i].seen);
        EXPECT_EQ(a.looks[i].next_event, b.looks[i].next_event);
    }
}

TEST(History, facts_of_a_day_mean_the_same_in_any_order) {
    Recorded as_written;
    for (const Fact& fact : a_busy_day) as_written.on(day(2, 10), fact);
    const RecordedCase expected = as_written.read();
    ASSERT_TRUE(check_scenario(expected.scenario).has_value());
    std::vector<Fact> shuffled = a_busy_day;
    std::mt19937 random(1);
    for (int i = 0; i < 50; ++i) {
        std::shuffle(shuffled.begin(), shuffled.end(), random);
        Recorded recorded;
        for (const Fact& fact : shuffled) recorded.on(day(2, 10), fact);
        expect_same(recorded.read(), expected);
    }
}

TEST(History, what_was_done_and_seen_means_the_same_told_twice) {
    Recorded once, twice;
    for (const Fact& fact : a_busy_day) {
        once.on(day(2, 10), fact);
        twice.on(day(2, 10), fact);
        // Hands can carry mites twice in a day.
        if (!std::holds_alternative<Handled>(fact) && !std::holds_alternative<ItemShared>(fact))
            twice.on(day(2, 10), fact);
    }
    expect_same(twice.read(), once.read());
}

TEST(History, two_animals_dosed_in_two_entries_are_those_dosed_in_one) {
    Recorded together, one_by_one;
    together.on(day(2, 10),
                Treated{EnclosureId("b"), animals({"juno", "otto"}), records::Method::oral_afoxolaner, {}});
    for (const char* const name : {"otto", "juno"})
        one_by_one.on(day(2, 10),
                      Treated{EnclosureId("b"), animals({name}), records::Method::oral_afoxolaner, {}});
    const RecordedCase both = together.read();
    expect_same(one_by_one.read(), both);
    const auto drugs = all_of<Medicated>(both);
    ASSERT_EQ(drugs.size(), 1U);
    mites::MiteParameters draw;
    draw.oral_kill_per_meal = 0.9;
    EXPECT_NEAR(drugs[0].second.chance(draw, drugs[0].first + 1), 0.9, 1e-15);
}

TEST(History, a_drug_goes_where_its_animal_goes_and_not_to_who_comes_after_it) {
    Recorded recorded;
    recorded.on(day(2, 10),
                Treated{EnclosureId("a"), animals({"pim"}), records::Method::oral_fluralaner, {}});
    recorded.on(day(2, 12), AnimalMoved{AnimalId("pim"), EnclosureId("b")});
    recorded.on(day(2, 14), AnimalMoved{AnimalId("nox"), EnclosureId("a")});
    const RecordedCase known = recorded.read();
    mites::MiteParameters draw;
    draw.oral_kill_per_meal = 0.9;
    std::map<PlaceIndex, double> last;
    for (const auto& [time, drugs] : all_of<Medicated>(known)) last[drugs.place] = drugs.chance(draw, time);
    EXPECT_EQ(last.at(place(known, "a")), 0);
    EXPECT_NEAR(last.at(place(known, "b")), 0.9 / 3, 1e-15) << "pim among juno and otto";
}

// A later treatment of one of them finds its animal by its name, in whichever order they came.
TEST(History, who_lives_in_a_tub_is_known_by_name) {
    Recorded recorded;
    recorded.on(day(2, 10),
                Treated{EnclosureId("a"), animals({"pim"}), records::Method::oral_fluralaner, {}});
    recorded.on(day(2, 12), AnimalMoved{AnimalId("pim"), EnclosureId("b")});
    recorded.on(day(2, 13), AnimalMoved{AnimalId("juno"), EnclosureId("a")});
    recorded.on(day(2, 14), AnimalMoved{AnimalId("juno"), EnclosureId("b")});
    const RecordedCase known = recorded.read();
    EXPECT_TRUE(known.living.at(EnclosureId("a")).empty());
    const auto& living = known.living.at(EnclosureId("b"));
    std::map<PlaceIndex, Medicated> last;
    for (const auto& [time, drugs] : all_of<Medicated>(known)) last[drugs.place] = drugs;
    const Medicated& drugs = last.at(place(known, "b"));
    ASSERT_EQ(living.size(), 3U);
    ASSERT_EQ(drugs.animals.size(), 3U);
    for (std::size_t i = 0; i < living.size(); ++i)
        EXPECT_EQ(!drugs.animals[i].empty(), living[i] == AnimalId("pim")) << living[i].text();
}

// So that who goes takes along what sat on it, and nothing of who comes.
TEST(History, who_leaves_a_tub_goes_before_who_comes_to_it) {
    Recorded recorded;
    recorded.on(day(2, 10), AnimalMoved{AnimalId("nox"), EnclosureId("a")});
    recorded.on(day(2, 10), AnimalMoved{AnimalId("pim"), EnclosureId("b")});
    const RecordedCase known = recorded.read();
    const auto moves = all_of<MoveAnimal>(known);
    ASSERT_EQ(moves.size(), 2U);
    EXPECT_EQ(moves[0].second.from, place(known, "a"));
    EXPECT_EQ(moves[1].second.to, place(known, "a"));
}

}  // namespace
}  // namespace mitefall::scenario
