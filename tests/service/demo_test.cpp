#include "service/demo.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <span>
#include <string>
#include <tuple>
#include <vector>

#include "exposure/tracing.h"
#include "forecast/forecast.h"
#include "network/classes.h"
#include "records/collection.h"
#include "safety/check.h"
#include "scenario/history.h"
#include "shared/tables.h"

namespace mitefall::service {
namespace {

using fixtures::tables;
using fixtures::taxa;
using records::AnimalId;
using records::Collection;
using records::Condition;
using records::EnclosureId;
using records::Entry;
using records::Method;
using units::Day;
using units::Days;

const EnclosureId sighted("a-05");
const units::Strength published = units::milligrams_per_litre(10);

Day some_day() { return units::parse_day("2026-07-01").value(); }

std::vector<Entry> journal_of(const std::vector<DatedFact>& facts) {
    std::vector<Entry> journal;
    for (const DatedFact& one : facts) {
        journal.push_back({static_cast<records::FactId>(journal.size() + 1), one.day, "2026-07-01T20:00:00Z",
                           one.fact, std::nullopt});
    }
    return journal;
}

const std::vector<Entry>& journal() {
    static const std::vector<Entry> entries = journal_of(demo_facts(some_day()));
    return entries;
}

const Collection& collection() {
    static const Collection folded = records::collection_on(journal(), some_day());
    return folded;
}

const records::Animal& animal(const char* id) { return collection().animals.at(AnimalId(id)); }

bool has(const char* id, Condition condition) {
    const auto& noted = animal(id).conditions;
    return std::any_of(noted.begin(), noted.end(),
                       [&](const auto& one) { return one.value.condition == condition; });
}

safety::Verdict verdict_on(const char* id, Method method) {
    return safety::judge(collection(), animal(id), method, published, some_day(), tables(), taxa(), {});
}

exposure::Tracing tracing() {
    return exposure::trace(journal(), tables(), std::span(&sighted, 1), some_day()).value();
}

template <class T>
std::size_t count_of() {
    return static_cast<std::size_t>(std::count_if(journal().begin(), journal().end(), [](const Entry& entry) {
        return std::holds_alternative<T>(entry.fact);
    }));
}

// A leap day, a turn of the year, a common day: nothing in the demo may hang on the date.
TEST(Demo, a_journal_accepts_every_fact_in_order_whatever_day_it_is) {
    for (const char* const date : {"2024-02-29", "2026-01-01", "2026-07-01", "2031-12-31"}) {
        const Day today = units::parse_day(date).value();
        std::vector<Entry> accepted;
        for (const Entry& entry : journal_of(demo_facts(today))) {
            const auto good = records::check_facts(accepted, std::span(&entry, 1), today);
            ASSERT_TRUE(good.has_value()) << date << ", entry " << entry.id << ": " << good.error().message();
            accepted.push_back(entry);
        }
        EXPECT_TRUE(records::check_facts({}, accepted, today).has_value());
    }
}

TEST(Demo, facts_ascend_and_end_today_with_the_sighting) {
    const auto facts = demo_facts(some_day());
    EXPECT_TRUE(std::is_sorted(facts.begin(), facts.end(),
                               [](const auto& a, const auto& b) { return a.day < b.day; }));
    EXPECT_EQ(facts.back().day, some_day());
    const auto* const seen = std::get_if<records::Sighted>(&facts.back().fact);
    ASSERT_NE(seen, nullptr);
    EXPECT_EQ(seen->enclosure, sighted);
    EXPECT_EQ(seen->count, records::SeenCount::few);
    EXPECT_EQ(seen->where, records::SeenWhere::on_animal);
}

TEST(Demo, only_the_days_change_with_today) {
    const auto first = demo_facts(some_day());
    const auto later = demo_facts(some_day() + Days(100));
    ASSERT_EQ(first.size(), later.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
        EXPECT_EQ(first[i].fact, later[i].fact);
        EXPECT_EQ(first[i].day + Days(100), later[i].day);
    }
}

TEST(Demo, forty_enclosures_stand_in_three_rooms_two_of_which_adjoin) {
    ASSERT_EQ(collection().rooms.size(), 3U);
    EXPECT_EQ(collection().enclosures.size(), 40U);
    EXPECT_EQ(collection().rooms.at(records::RoomId("study")).adjoining,
              std::vector{records::RoomId("nursery")});
    EXPECT_TRUE(collection().rooms.at(records::RoomId("snakes")).adjoining.empty());
    for (const auto& [id, room] : collection().rooms)
        EXPECT_FALSE(collection().enclosures_in(id).empty()) << id.text();
}

TEST(Demo, racks_share_a_climate_so_that_many_enclosures_are_alike) {
    std::set<std::tuple<double, double, double>> climates;
    for (const auto& [id, enclosure] : collection().enclosures) {
        climates.emplace(in_celsius(enclosure.climate.day), in_celsius(enclosure.climate.night),
                         in_percent(enclosure.climate.humidity));
    }
    EXPECT_EQ(climates.size(), 4U);
    const auto known = scenario::case_from_records(journal(), some_day(), units::days_long(60),
                                                   mites::fixed_parameters(tables()))
                           .value();
    // What lies ahead is the same for many of them, whatever their past.
    const scenario::Scenario ahead = scenario::forget_past(known.scenario, known.from);
    EXPECT_LE(network::lump(ahead).members.size(), known.scenario.places.size() / 2);
}

TEST(Demo, wood_and_plastic_both_occur) {
    std::map<records::Material, int> made_of;
    for (const auto& [id, enclosure] : collection().enclosures) ++made_of[enclosure.material];
    EXPECT_EQ(made_of[records::Material::porous], 7);
    EXPECT_EQ(made_of[records::Material::sealed], 33);
}

TEST(Demo, every_kind_of_animal_is_in_the_table_and_one_is_a_tortoise) {
    std::set<std::string> kinds;
    int tortoises = 0;
    for (const auto& [id, one] : collection().animals) {
        const auto taxon = taxa().find(one.taxon);
        ASSERT_TRUE(taxon.has_value()) << one.taxon;
        kinds.insert(taxon->scientific);
        if (taxon->group == evidence::TaxonGroup::chelonian) ++tortoises;
    }
    EXPECT_EQ(collection().animals.size(), 39U);
    EXPECT_EQ(tortoises, 1);
    EXPECT_GE(kinds.size(), 10U);
    ASSERT_EQ(collection().bystanders.size(), 1U);
    EXPECT_EQ(taxa().find(collection().bystanders.front().taxon)->group, evidence::TaxonGroup::dog);
    EXPECT_TRUE(collection().bystanders.front().room.empty());
}

TEST(Demo, snakes_weigh_sixty_grams_to_four_kilograms) {
    double lightest = 1e9;
    double heaviest = 0;
    for (const auto& [id, one] : collection().animals) {
        if (!one.weight || taxa().find(one.taxon)->group != evidence::TaxonGroup::snake) continue;
        lightest = std::min(lightest, in_grams(one.weight->value));
        heaviest = std::max(heaviest, in_grams(one.weight->value));
    }
    EXPECT_EQ(lightest, 60);
    EXPECT_EQ(heaviest, 4000);
}

TEST(Demo, one_weight_is_missing_and_one_is_stale) {
    std::vector<std::string> missing;
    std::vector<std::string> stale;
    for (const auto& [id, one] : collection().animals) {
        if (!one.weight)
            missing.push_back(id.text());
        else if (some_day() - one.weight->day > Days(60))
            stale.push_back(id.text());
        else
            EXPECT_GE(some_day() - one.weight->day, Days(7)) << id.text();
    }
    EXPECT_EQ(missing, std::vector<std::string>{"nico"});
    EXPECT_EQ(stale, std::vector<std::string>{"petra"});
}

TEST(Demo, the_special_cases_are_on_record) {
    EXPECT_EQ(animal("gus").shed->value, records::ShedState::cloudy);
    EXPECT_EQ(animal("ezra").shed->value, records::ShedState::shed);
    EXPECT_EQ(animal("ezra").shed->day, some_day() - Days(1));
    EXPECT_TRUE(has("cleo", Condition::gravid));
    EXPECT_TRUE(has("clover", Condition::thin));
    EXPECT_TRUE(has("mabel", Condition::reacted));
    EXPECT_TRUE(taxa().find(animal("olive").taxon)->unidentified);
    EXPECT_TRUE(animal("otto").quarantine);
    EXPECT_EQ(animal("otto").arrived, some_day() - Days(21));
    EXPECT_EQ(collection().enclosures.at(animal("otto").enclosure).room, records::RoomId("snakes"));
    EXPECT_EQ(collection().animals_in(animal("otto").enclosure).size(), 1U);
    EXPECT_EQ(animal("pip").enclosure, EnclosureId("a-12"));
    EXPECT_EQ(animal("rufus").enclosure, EnclosureId("a-07"));
    EXPECT_EQ(collection().animals_in(EnclosureId("v-05")).size(), 2U);
    EXPECT_TRUE(collection().animals_in(EnclosureId("b-18")).empty());
    ASSERT_EQ(collection().sightings.size(), 1U);
}

TEST(Demo, contacts_of_every_kind_are_on_record) {
    EXPECT_EQ(count_of<records::AnimalMoved>(), 3U);
    EXPECT_EQ(count_of<records::ItemShared>(), 4U);
    EXPECT_EQ(count_of<records::Handled>(), 5U);
    EXPECT_EQ(count_of<records::Checked>(), 4U);
    const auto in_a_bag = std::count_if(journal().begin(), journal().end(), [](const Entry& entry) {
        const auto* const session = std::get_if<records::Handled>(&entry.fact);
        return session != nullptr && session->shared_bag;
    });
    EXPECT_EQ(in_a_bag, 1);
}

TEST(Demo, ivermectin_spray_is_never_for_the_room_of_the_tortoise) {
    for (const char* const id : {"agatha", "wren", "silas", "thea"}) {
        EXPECT_EQ(verdict_on(id, Method::spray_animal).ruling, safety::Ruling::never) << id;
        EXPECT_EQ(verdict_on(id, Method::spray_bedding).ruling, safety::Ruling::never) << id;
    }
}

// The rule of each row: docs of safety/ and data/evidence/rules.toml.
TEST(Demo, verdicts_on_the_spray_differ_as_the_records_do) {
    using safety::Ruling;
    const struct {
        const char* id;
        Ruling ruling;
    } rows[] = {
        {"juno", Ruling::allowed},                                    // sound, weighed, far above 200 g
        {"otto", Ruling::allowed},   {"nell", Ruling::bedding_only},  // 185 g
        {"gus", Ruling::wait_until},                                  // cloudy
        {"cleo", Ruling::ask_vet},   {"clover", Ruling::never},
        {"mabel", Ruling::ask_vet},  // of the rainforest
        {"olive", Ruling::ask_vet},  {"nico", Ruling::ask_vet},
        {"petra", Ruling::ask_vet},
    };
    for (const auto& row : rows)
        EXPECT_EQ(verdict_on(row.id, Method::spray_animal).ruling, row.ruling) << row.id;
}

TEST(Demo, the_sighting_leads_out_by_different_paths) {
    std::map<EnclosureId, exposure::StepKind> last_step;
    for (const exposure::Exposed& row : tracing().exposed) {
        if (!row.sighted && row.chance >= 0.02) last_step[row.enclosure] = row.path.back().kind;
    }
    EXPECT_EQ(last_step.at(EnclosureId("a-07")), exposure::StepKind::moved_to);
    EXPECT_EQ(last_step.at(EnclosureId("a-12")), exposure::StepKind::moved_to);
    EXPECT_EQ(last_step.at(EnclosureId("v-02")), exposure::StepKind::shared_bag);
    EXPECT_EQ(last_step.at(EnclosureId("b-06")), exposure::StepKind::shared_item);
    EXPECT_EQ(last_step.at(EnclosureId("b-07")), exposure::StepKind::shared_item);
    EXPECT_EQ(last_step.at(EnclosureId("s-02")), exposure::StepKind::handled_after);
    EXPECT_EQ(last_step.at(EnclosureId("v-05")), exposure::StepKind::same_room);
    EXPECT_FALSE(last_step.contains(EnclosureId("b-01")));
    EXPECT_FALSE(last_step.contains(EnclosureId("s-01")));
}

TEST(Demo, the_new_arrival_is_a_plausible_source) {
    const exposure::Tracing traced = tracing();
    EXPECT_TRUE(
        std::any_of(traced.sources.begin(), traced.sources.end(),
                    [](const exposure::Exposed& source) { return source.enclosure == EnclosureId("q-01"); }));
    ASSERT_FALSE(traced.arrivals.empty());
    EXPECT_EQ(traced.arrivals.front().animal, AnimalId("otto"));
}

}  // namespace
}  // namespace mitefall::service
