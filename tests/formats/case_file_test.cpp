#include "formats/casefile/case_file.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "formats/json/forecast.h"
#include "formats/json/simulation.h"
#include "scene.h"
#include "schemas.h"
#include "simulator/simulator.h"

namespace mitefall::formats {
namespace {

CaseFile example(const std::string& name) {
    auto read = read_case(read_text("docs/examples/" + name), ensemble());
    if (!read) throw std::runtime_error(read.error().message());
    return std::move(*read);
}

forecast::Forecast answer(const CaseFile& given, bool only_mode) {
    forecast::ForecastRequest request = request_of(given);
    request.only_mode = only_mode;
    return forecast::forecast_clear(request).value();
}

simulator::SimulationResult simulated(const CaseFile& given, std::uint32_t runs) {
    simulator::SimulationRequest request;
    request.scenario = &given.scenario;
    request.fixed = given.ensemble.fixed;
    request.draw = given.ensemble.mode;
    request.start = std::get<forecast::KnownStart>(given.start);
    request.from = given.from;
    request.to = given.to;
    request.runs = runs;
    request.report_times = {given.from, given.to};
    return simulator::simulate(request);
}

TEST(CaseFile, examples_are_as_the_schema_says) {
    for (const char* const name : {"case-three-rounds.json", "case-known-mites.json"}) {
        EXPECT_EQ(faults_of(read_text(std::string("docs/examples/") + name), "case"), "") << name;
    }
}

TEST(CaseFile, three_rounds_start_from_the_sighting) {
    const CaseFile given = example("case-three-rounds.json");
    ASSERT_EQ(given.scenario.places.size(), 5U);
    EXPECT_EQ(given.scenario.places[0].adjoining, std::vector<scenario::PlaceIndex>{1});
    EXPECT_EQ(given.scenario.places[1].adjoining, std::vector<scenario::PlaceIndex>{0})
        << "adjoining counts both ways";
    EXPECT_EQ(given.scenario.places[4].material, records::Material::porous);
    EXPECT_EQ(units::in_celsius(given.scenario.places[1].climate.night), 19);
    EXPECT_EQ(given.from, 45);
    EXPECT_EQ(given.to, 115);
    const auto& sighting = std::get<forecast::SightedStart>(given.start).at(0);
    EXPECT_EQ(sighting.entered_on, 0);
    EXPECT_EQ(sighting.seen_on, 45);
    EXPECT_EQ(sighting.seen_low, 2);
    EXPECT_EQ(sighting.seen_high, 10);
    EXPECT_EQ(given.scenario.events.front().time, 45) << "day 0 is the sighting";
    EXPECT_EQ(given.ensemble.mode.leaving_rate, 0.004);
    for (const auto& draw : given.ensemble.draws) EXPECT_EQ(draw.leaving_rate, 0.004);
}

TEST(CaseFile, the_earliest_entry_is_time_zero) {
    Json json = Json::parse(read_text("docs/examples/case-three-rounds.json"));
    json["sightings"].push_back(Json::parse(
        R"({"place": "old cabinet", "count": "more", "where": "on-paper", "days_since_entry": 60})"));
    const auto given = read_case(json.dump(), ensemble());
    ASSERT_TRUE(given) << given.error().message();
    const auto& start = std::get<forecast::SightedStart>(given->start);
    EXPECT_EQ(given->from, 60);
    EXPECT_EQ(start[0].entered_on, 15);
    EXPECT_EQ(start[1].entered_on, 0);
    EXPECT_EQ(start[1].seen_on, 60);
    EXPECT_FALSE(start[1].on_animal);
    EXPECT_EQ(start[1].seen_high, 500);
}

TEST(CaseFile, steps_are_merged_in_order_of_day_actions_first) {
    const CaseFile given = example("case-known-mites.json");
    double before = 0;
    for (const scenario::Event& event : given.scenario.events) {
        EXPECT_GE(event.time, before);
        before = event.time;
    }
    const auto n = given.scenario.events.size();
    ASSERT_GE(n, 3U);
    EXPECT_TRUE(std::holds_alternative<scenario::CleanCheck>(given.scenario.events[n - 1].what))
        << "the check of day 12 comes last";
    const auto* const eggs = std::get_if<scenario::Kill>(&given.scenario.events[n - 2].what);
    ASSERT_NE(eggs, nullptr);
    EXPECT_EQ(eggs->reach, mites::Reach::eggs);
}

TEST(CaseFile, forecast_of_an_example_is_as_its_schema_says) {
    const CaseFile given = example("case-three-rounds.json");
    const Json json = forecast_json(answer(given, false), answer(given, true).clear_at_mode);
    EXPECT_EQ(faults_of(json, "forecast"), "");
    EXPECT_EQ(json["chance_by_draw"].size(), ensemble().draws.size());
    EXPECT_GT(json["clear_at_mode"], 0);
    Json rescored = json;
    rescored["target"] = 0.99;
    EXPECT_EQ(faults_of(rescored, "rescore"), "");
}

// The same file through both engines: within 4 standard errors of 20,000 runs. Without the import, which the
// simulator does not follow.
TEST(CaseFile, both_engines_agree_on_an_example) {
    Json json = Json::parse(read_text("docs/examples/case-known-mites.json"));
    json["actions"].erase(9);
    const auto given = read_case(json.dump(), ensemble());
    ASSERT_TRUE(given) << given.error().message();
    const auto result = simulated(*given, 20'000);
    EXPECT_EQ(faults_of(simulation_json(result, 20'000), "simulation"), "");
    EXPECT_NEAR(answer(*given, true).clear_at_mode, result.clear_given_clean.value,
                4 * result.clear_given_clean.standard_error);
}

/// Mites one look would show, as the "start_from_sighting" text of the model says.
double shown_by(const std::vector<scenario::MiteCount>& mites, bool on_animal, const CaseFile& given) {
    const mites::MiteParameters& mode = given.ensemble.mode;
    double sum = 0;
    for (const scenario::MiteCount& group : mites) {
        const std::string stage(mites::to_text(group.stage));
        const bool feeding = stage.find("feeding") != std::string::npos;
        const bool wandering_adult = stage.starts_with("adult-seeking") || stage.starts_with("adult-laying");
        if (group.place == 2 && (on_animal ? feeding : wandering_adult)) sum += group.count;
    }
    const double seen = 1 - std::pow(1 - mode.detection_light, 1 / given.ensemble.fixed.light_infestation);
    return sum * seen * (on_animal ? 1 : mode.detection_nest_part);
}

TEST(CaseFile, start_from_a_sighting_is_scaled_as_the_model_text_says) {
    for (const bool on_animal : {true, false}) {
        Json json = Json::parse(read_text("docs/examples/case-three-rounds.json"));
        json["sightings"][0]["where"] = on_animal ? "on-animal" : "in-water";
        json["parameters"]["sighting_quantile"] = 0.25;
        const auto given = read_case(json.dump(), ensemble());
        ASSERT_TRUE(given) << given.error().message();
        const auto mites =
            forecast::expected_start(given->scenario, given->ensemble.fixed, given->ensemble.mode,
                                     std::get<forecast::SightedStart>(given->start), given->from);
        EXPECT_NEAR(shown_by(mites, on_animal, *given), 2 * std::pow(5, 0.25), 1e-6);  // "2-10"
    }
}

TEST(CaseFile, parameter_bounds_follow_the_units_of_the_evidence) {
    for (const evidence::Tables::Row& row : tables().rows()) {
        if (mites::find_parameter(row.cited.key) == nullptr) continue;
        for (const double value : {row.cited.low, row.cited.value, row.cited.high}) {
            Json json = Json::parse(read_text("docs/examples/case-known-mites.json"));
            json["parameters"] = {{row.cited.key, value}};
            EXPECT_TRUE(read_case(json.dump(), ensemble())) << row.cited.key << " " << value;
        }
        Json as_chance = Json::parse(read_text("docs/examples/case-known-mites.json"));
        as_chance["actions"][0]["chance"] = row.cited.key;
        EXPECT_EQ(read_case(as_chance.dump(), ensemble()).has_value(), row.unit == "share") << row.cited.key;
        as_chance["actions"][0]["chance"] = 0.5;
        as_chance["actions"][1]["level_per_day"] = row.cited.key;
        EXPECT_EQ(read_case(as_chance.dump(), ensemble()).has_value(), row.unit == "1/d") << row.cited.key;
        as_chance["actions"][1]["level_per_day"] = 0.5;
        as_chance["actions"][1]["half_life_days"] = row.cited.key;
        EXPECT_EQ(read_case(as_chance.dump(), ensemble()).has_value(), row.unit == "d") << row.cited.key;
    }
}

RC_GTEST_PROP(CaseFile, numbers_arrive_to_the_bit, ()) {
    const double share = static_cast<double>(*rc::gen::inRange<std::int64_t>(0, 1LL << 53)) * 0x1p-53;
    const double days = share * 40;
    Json json = Json::parse(read_text("docs/examples/case-known-mites.json"));
    json["actions"] =
        Json::parse(R"([{"day": 0, "action": "kill", "place": "a", "reach": "eggs", "chance": 0}])");
    json["checks"] = Json::array();
    json["actions"][0]["day"] = days;
    json["actions"][0]["chance"] = share;
    const auto given = read_case(write_json(json), ensemble());
    RC_ASSERT(given.has_value());
    const scenario::Event& event = given->scenario.events.at(0);
    RC_ASSERT(event.time == days);
    RC_ASSERT(std::get<scenario::Kill>(event.what).chance.fixed == share);
}

TEST(CaseFile, an_action_on_the_horizon_is_allowed_whatever_the_rounding) {
    for (const double horizon : {0.3, 0.7, 59.9, 3650.0}) {
        Json json = Json::parse(read_text("docs/examples/case-three-rounds.json"));
        json["sightings"][0]["days_since_entry"] = 1.1;
        json["horizon_days"] = horizon;
        json["actions"] =
            Json::array({Json{{"day", horizon}, {"action", "residue-gone"}, {"place", "tub 1"}}});
        json["checks"] = Json::array();
        EXPECT_TRUE(read_case(json.dump(), ensemble())) << horizon;
    }
}

Json two_snakes(const char* actions) {
    return Json{{"mitefall_case", 1},
                {"title", "two snakes in one tub"},
                {"horizon_days", 60},
                {"places", Json::parse(R"([
                    {"name": "room", "kind": "room", "temperature_c": 24, "humidity_percent": 60},
                    {"name": "a", "kind": "enclosure", "room": "room", "material": "sealed", "temperature_c": 28,
                     "humidity_percent": 80, "animals": 2}])")},
                {"mites", Json::parse(R"([{"place": "a", "stage": "adult-feeding-1", "count": 3},
                                          {"place": "a", "stage": "protonymph-seeking", "count": 4}])")},
                {"actions", Json::parse(actions)}};
}

double clear_of(const char* actions) {
    const auto given = read_case(two_snakes(actions).dump(), ensemble());
    if (!given) throw std::runtime_error(given.error().message());
    return answer(*given, false).clear.mean;
}

TEST(CaseFile, animals_treated_one_by_one_are_those_treated_together) {
    for (const std::string method : {"oral-fluralaner", "soak"}) {
        const auto with = [&](const std::string& animals) {
            return R"({"day": 1, "action": "treatment", "place": "a", "method": ")" + method + "\"" +
                   animals + "}";
        };
        const double together = clear_of(("[" + with("") + "]").c_str());
        const auto told = [&](const std::string& first, const std::string& second) {
            return clear_of(("[" + with(first) + "," + with(second) + "]").c_str());
        };
        EXPECT_EQ(told(R"(, "animals": [1])", R"(, "animals": [2])"), together);
        EXPECT_EQ(told(R"(, "animals": [2])", R"(, "animals": [1, 2])"), together);
        EXPECT_EQ(told(R"(, "part": 0.5)", R"(, "part": 0.5)"), together);
        EXPECT_EQ(told("", ""), together);
        EXPECT_EQ(told("", R"(, "part": 0)"), together) << "nobody treated is nothing done";
    }
}

TEST(CaseFile, a_drug_goes_with_the_animal_that_was_given_it) {
    const std::string dosed =
        R"([{"day": 1, "action": "meal-kill", "place": "a", "chance": 0.98, "animals": [1], "days": 80},)";
    const double dosed_leaves =
        clear_of((dosed + R"({"day": 2, "action": "animal-leaves", "place": "a", "animal": 1}])").c_str());
    const double other_leaves =
        clear_of((dosed + R"({"day": 2, "action": "animal-leaves", "place": "a", "animal": 2}])").c_str());
    const double last_leaves =
        clear_of((dosed + R"({"day": 2, "action": "animal-leaves", "place": "a"}])").c_str());
    EXPECT_GT(other_leaves, dosed_leaves + 0.1);
    EXPECT_EQ(last_leaves, other_leaves) << "unless told otherwise the last to come";
}

TEST(CaseFile, the_second_residue_or_drug_never_takes_the_first_away) {
    const std::string strong =
        R"({"day": 1, "action": "residue", "place": "a", "level_per_day": 2, "half_life_days": 5, "damp_days": 20})";
    const std::string weak =
        R"({"day": 2, "action": "residue", "place": "a", "level_per_day": 0.1, "half_life_days": 1})";
    EXPECT_EQ(clear_of(("[" + strong + "," + weak + "]").c_str()), clear_of(("[" + strong + "]").c_str()));
    const std::string drug = R"({"day": 1, "action": "meal-kill", "place": "a", "chance": 0.95, "days": 40})";
    const std::string shorter =
        R"({"day": 3, "action": "meal-kill", "place": "a", "chance": 0.5, "days": 2})";
    EXPECT_GE(clear_of(("[" + drug + "," + shorter + "]").c_str()), clear_of(("[" + drug + "]").c_str()));
}

}  // namespace
}  // namespace mitefall::formats
