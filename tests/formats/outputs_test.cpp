#include <gtest/gtest.h>

#include "formats/json/collection.h"
#include "formats/json/exposure.h"
#include "formats/json/facts.h"
#include "formats/json/json.h"
#include "formats/json/origin.h"
#include "formats/json/plan.h"
#include "formats/json/shopping.h"
#include "formats/json/verdicts.h"
#include "formats/json/worklist.h"
#include "formats/origin.h"
#include "formats/text/origin.h"
#include "scene.h"
#include "schemas.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

TEST(Outputs, collection_is_as_its_schema_says) {
    const Json json = collection_json(scene().collection, tables());
    EXPECT_EQ(faults_of(json, "collection"), "");
    ASSERT_EQ(json["animals"].size(), 3U);
    const Json& nox = json["animals"][1];
    EXPECT_EQ(nox["animal"], "nox");
    EXPECT_EQ(nox["weight"], nullptr) << "never weighed is not 0 g";
    EXPECT_EQ(nox["treatments"][0]["strength_mg_per_l"], nullptr) << "a soak has no strength";
    EXPECT_EQ(json["animals"][2]["weight"]["mass_g"], 900);
    EXPECT_EQ(json["bystanders"][0]["room"], nullptr) << "the whole house";
}

// What is sprayed on paper and walls reaches who lives there: a veterinarian must read of it.
TEST(Outputs, what_was_sprayed_around_an_animal_is_told_of_it) {
    using namespace records;
    auto journal = scene().journal;
    const auto id = static_cast<FactId>(journal.size());
    const units::Strength strength = units::milligrams_per_litre(10);
    journal.push_back({id + 1,
                       today,
                       "2026-03-10T20:00:00Z",
                       Treated{EnclosureId("a"), {}, Method::spray_bedding, strength},
                       {}});
    journal.push_back({id + 2,
                       today,
                       "2026-03-10T20:00:01Z",
                       Treated{EnclosureId("a"), {AnimalId("pim")}, Method::spray_bedding, strength},
                       {}});
    const Json json = collection_json(collection_on(journal, today), tables());
    EXPECT_EQ(faults_of(json, "collection"), "");
    for (const Json& animal : json["animals"]) {
        const Json& around = animal["enclosure_treatments"];
        ASSERT_EQ(around.size(), animal["animal"] == "pim" ? 1U : 0U) << animal;
        if (around.empty()) continue;
        EXPECT_EQ(around[0]["entry"], id + 1) << "what names it is among its own";
        EXPECT_EQ(around[0]["method"], "spray-bedding");
    }
}

TEST(Outputs, empty_collection_is_as_its_schema_says) {
    records::Collection empty;
    empty.day = today;
    EXPECT_EQ(faults_of(collection_json(empty, tables()), "collection"), "");
}

TEST(Outputs, collection_with_a_plan_is_as_its_schema_says) {
    records::Collection with_plan = scene().collection;
    with_plan.plan = {
        today,
        20,
        {{today}, {records::EnclosureId("a")}, {}, {true, false}, units::milligrams_per_litre(10)}};
    with_plan.acknowledged = units::milligrams_per_litre(200);
    with_plan.done["k"] = {today, 21, {"k"}};
    with_plan.skipped["l"] = {today, 22, {"l", "shedding"}};
    const Json json = collection_json(with_plan, tables());
    EXPECT_EQ(faults_of(json, "collection"), "");
    EXPECT_EQ(json["plan"]["rounds"], Json::parse(R"(["2026-03-10"])"));
    EXPECT_EQ(json["skipped"][0]["reason"], "shedding");
}

/// The archive (records/facts/fact.h) that says something in every field.
class SaysAll {
  public:
    template <class T>
    void field(records::Key, T& value) {
        say(value);
    }
    template <class T>
    void later_field(records::Key, T& value) {
        say(value);
    }

  private:
    static void say(std::string& text) { text = "said"; }
    static void say(bool& flag) { flag = true; }
    static void say(int& number) { number = 2; }
    static void say(units::Day& day) { day = today; }
    template <class Kind>
    static void say(base::Id<Kind>& id) {
        id = base::Id<Kind>("name");
    }
    template <records::Choice E>
    static void say(E& value) {
        value = records::all_of<E>().back();
    }
    template <class T>
    static void say(std::optional<T>& value) {
        say(value.emplace());
    }
    template <class T>
    static void say(std::vector<T>& rows) {
        say(rows.emplace_back());
    }
    static void say(units::Mass& mass) { mass = units::grams(2); }
    static void say(units::Strength& strength) { strength = units::milligrams_per_litre(2); }
    static void say(units::Volume& volume) { volume = units::millilitres(2); }
    static void say(units::Area& area) { area = units::square_centimetres(2); }
    static void say(units::Temperature& temperature) { temperature = units::celsius(2); }
    static void say(units::Humidity& humidity) { humidity = units::relative_humidity_percent(2); }
    template <records::Described<SaysAll> Row>
    static void say(Row& row) {
        SaysAll::fill(row);
    }

  public:
    template <class T>
    static void fill(T& fact) {
        SaysAll fields;
        records::list_fields(fields, fact);
    }
};

template <class... Kinds, class Add>
void add_samples(std::type_identity<std::variant<Kinds...>>, Add add) {
    const auto add_one = [&]<class T>(T fact) {
        SaysAll::fill(fact);
        add(std::move(fact));
    };
    (add_one(Kinds{}), ...);
}

TEST(Outputs, journal_is_as_its_schema_says) {
    using namespace records;
    auto journal = scene().journal;
    const auto add = [&](Fact fact) {
        journal.push_back({99, today, "2026-03-10T20:00:00Z", std::move(fact), 3});
    };
    add_samples(std::type_identity<Fact>{}, add);
    add(Checked{EnclosureId("a"), CheckMethod::paper_trap, SeenCount::none});
    add(PlanAdopted{
        {today}, {EnclosureId("a")}, {RoomId("snakes")}, {true, true}, units::milligrams_per_litre(10)});
    add(RoomTreated{RoomId("hall"), {}});
    add(QuarantineEnded{AnimalId("nox")});
    add(BatchDiscarded{BatchId("b-1"), ""});
    EXPECT_EQ(faults_of(journal_json(journal), "journal"), "");
}

TEST(Outputs, journal_keeps_the_facts_of_the_keeper) {
    const Json entries = journal_json(scene().journal)["entries"];
    EXPECT_EQ(entries[8]["kind"], "weighed");
    EXPECT_EQ(entries[8]["fact"], Json::parse(R"({"animal": "pim", "mass_g": 900.0})"));
    EXPECT_EQ(entries[16]["fact"],
              Json::parse(R"({"enclosure": "a", "count": "2-10", "where": "on-animal"})"));
    EXPECT_EQ(entries[16]["corrects"], nullptr);
}

TEST(Outputs, exposure_is_as_its_schema_says) {
    const auto tracing =
        exposure::trace(scene().journal, tables(), std::vector{records::EnclosureId("a")}, today);
    ASSERT_TRUE(tracing);
    const Json json = exposure_json(*tracing);
    EXPECT_EQ(faults_of(json, "exposure"), "");
    EXPECT_EQ(json["exposed"][0]["enclosure"], "a");
    EXPECT_EQ(json["exposed"][0]["sighted"], true);
    EXPECT_EQ(json["exposed"].size(), 3U);
}

TEST(Outputs, origin_is_as_its_schema_says) {
    const OriginView view{scene().known, scene().belief, scene().collection};
    const Json json = origin_json(view);
    EXPECT_EQ(faults_of(json, "origin"), "");
    EXPECT_EQ(json["day"], "2026-03-10");
    EXPECT_EQ(json["sighted"], true);
    EXPECT_EQ(json["looks"], 1);
    double behind = 0;
    for (const Json& one : json["introductions"]) behind += one["behind_last_seen"].get<double>();
    EXPECT_NEAR(behind, 1, 0.02) << "only unlikely ones are left out";
}

/// The belief of the small journal without its last entry, the sighting, and with `more` instead.
std::string text_with(std::vector<records::Fact> more) {
    auto journal = scene().journal;
    journal.resize(journal.size() - 1);
    for (records::Fact& fact : more)
        journal.push_back({99, today, "2026-03-10T20:00:00Z", std::move(fact), {}});
    const auto known =
        scenario::case_from_records(journal, today, units::days_long(60), ensemble().fixed).value();
    const auto belief = belief::believe_records(known, ensemble(), belief::introduction_prior(tables()), 1);
    const auto collection = records::collection_on(journal, today);
    EXPECT_EQ(faults_of(origin_json({known, belief, collection}), "origin"), "");
    return origin_text({known, belief, collection});
}

TEST(Outputs, origin_says_what_it_rests_on) {
    const std::string nothing = text_with({});
    EXPECT_NE(nothing.find("Nobody has looked yet"), std::string::npos) << nothing;
    EXPECT_NE(nothing.find("no mite has come in at all"), std::string::npos) << nothing;
    using namespace records;
    const std::string seen = text_with({Sighted{EnclosureId("a"), SeenCount::few, SeenWhere::on_animal}});
    EXPECT_NE(seen.find("Where the mites seen last came from"), std::string::npos) << seen;
    EXPECT_EQ(seen.find("does not fit"), std::string::npos) << seen;
}

TEST(Outputs, one_contact_with_the_outside_is_one_row_wherever_it_reached) {
    using namespace records;
    // text_with holds its JSON against the schema. Row outside_second_hand_wood is 0.05.
    const std::string text = text_with({OutsideContact{OutsideKind::second_hand_wood, {}, {}, "shelves"}});
    EXPECT_NE(text.find("5.0 %"), std::string::npos) << text;
    const auto first = text.find("second-hand wood on 10 Mar");
    ASSERT_NE(first, std::string::npos) << text;
    EXPECT_EQ(text.find("second-hand wood", first + 1), std::string::npos) << text;
}

TEST(Outputs, verdicts_are_as_their_schema_says) {
    const auto verdicts = safety::judge_all(scene().collection, units::milligrams_per_litre(10), today,
                                            tables(), Scene::taxa, {});
    const Json json = verdicts_json(verdicts);
    EXPECT_EQ(faults_of(json, "verdicts"), "");
    ASSERT_EQ(json["verdicts"].size(), verdicts.size());
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
        EXPECT_EQ(json["verdicts"][i]["permitted"], safety::permits(verdicts[i]));
    }
}

TEST(Outputs, plan_is_as_its_schema_says) {
    const std::vector<plan::Rung> rungs{{1, {0.2, 0.1, 0.3}}, {2, {0.5, 0.4, 0.6}}};
    const Json json = plan_json(scene().choice, scene().setting, scene().goal, rungs);
    EXPECT_EQ(faults_of(json, "plan"), "");
    EXPECT_EQ(json["ladder"], each_round_json(rungs)["ladder"]);
    EXPECT_EQ(json["ladder"][1]["clear"]["p90"], 0.6);
    EXPECT_TRUE(plan_json(scene().choice, scene().setting, scene().goal)["ladder"].empty());
    const Json& plan = json["recommended"];
    ASSERT_FALSE(plan["rounds"].empty());
    for (const Json& round : plan["rounds"]) {
        for (const Json& treatment : round["treatments"]) {
            for (const Json& caution : treatment["cautions"])
                EXPECT_LT(caution.get<std::size_t>(), plan["cautions"].size());
        }
    }
}

TEST(Outputs, plan_gives_each_treatment_its_own_cautions) {
    const plan::Schedule& schedule = scene().choice.recommended.schedule;
    const Json plan = plan_json(scene().choice, scene().setting, scene().goal)["recommended"];
    std::size_t compared = 0;
    for (std::size_t r = 0; r < schedule.rounds.size(); ++r) {
        for (std::size_t t = 0; t < schedule.rounds[r].treatments.size(); ++t) {
            const auto& cautions = schedule.rounds[r].treatments[t].treatment.cautions();
            const Json& positions = plan["rounds"][r]["treatments"][t]["cautions"];
            ASSERT_EQ(positions.size(), cautions.size());
            for (std::size_t c = 0; c < cautions.size(); ++c, ++compared) {
                EXPECT_EQ(plan["cautions"][positions[c].get<std::size_t>()]["text"],
                          words::say(cautions[c].what));
            }
        }
    }
    EXPECT_GT(compared, 0U);
}

plan::Schedule three_rounds() {
    return plan::fit(plan::assign({3, 7, {true, true}, plan::Scope::sighted_rooms}, scene().setting),
                     scene().setting);
}

TEST(Outputs, shopping_is_as_its_schema_says) {
    worklist::Bench bench{
        {units::percent_mass_in_volume(1), today + units::Days(300)}, mixing::usual_syringes(), {}};
    bench.stock_is = mixing::StockForm::plain;
    bench.packages.push_back({units::millilitres(50), mixing::Money::make(1250, "EUR").value()});
    const auto shopping = worklist::shop_for(three_rounds(), scene().setting, bench);
    ASSERT_TRUE(shopping) << shopping.error().message();
    const Json json = shopping_json(*shopping, bench);
    EXPECT_EQ(faults_of(json, "shopping"), "");
    EXPECT_EQ(json["stock"]["strength_mg_per_l"], 10000);
    EXPECT_EQ(json["packages"][0]["price"]["minor_units"], 1250);
}

TEST(Outputs, shopping_without_tools_says_why_nothing_can_be_measured) {
    const worklist::Bench bench{{units::percent_mass_in_volume(1), {}}, {}, {}};
    const auto shopping = worklist::shop_for(three_rounds(), scene().setting, bench);
    ASSERT_TRUE(shopping) << shopping.error().message();
    const Json json = shopping_json(*shopping, bench);
    EXPECT_EQ(faults_of(json, "shopping"), "");
    EXPECT_EQ(json["batches"][0]["measurement"], nullptr);
    EXPECT_NE(json["batches"][0]["cannot_measure"], nullptr);
    EXPECT_EQ(json["purchase"], nullptr);
}

TEST(Outputs, worklist_is_as_its_schema_says) {
    records::Collection adopted = scene().collection;
    const plan::Assignment& assignment = scene().choice.recommended.schedule.assignment;
    adopted.plan = {today,
                    0,
                    {assignment.rounds, assignment.enclosures, assignment.rooms, assignment.choices,
                     scene().setting.strength}};
    const safety::Case with = safety::prepare(adopted, tables(), Scene::taxa);
    const auto list = worklist::make_worklist(
        {with, scene().known, scene().setting.exposed, today, scene().setting.strength});
    const Json json = worklist_json(list);
    EXPECT_EQ(faults_of(json, "worklist"), "");
    ASSERT_FALSE(json["tasks"].empty());
    bool treats = false;
    for (const Json& task : json["tasks"])
        treats = treats || (task["kind"] == "treat" && task["method"].is_string());
    EXPECT_TRUE(treats);
}

}  // namespace
}  // namespace mitefall::formats
