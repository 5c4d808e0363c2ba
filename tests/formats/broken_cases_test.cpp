#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "formats/casefile/case_file.h"
#include "scene.h"
#include "schemas.h"

namespace mitefall::formats {
namespace {

const Json& sound() {
    static const Json json = Json::parse(read_text("docs/examples/case-known-mites.json"));
    return json;
}

const Json& sighted() {
    static const Json json = Json::parse(read_text("docs/examples/case-three-rounds.json"));
    return json;
}

struct Broken {
    const char* patch;  ///< RFC 6902
    const char* where;
    const char* word;  ///< stands in the message
};

void expect_refused(const Json& base, const Broken& broken) {
    const auto read = read_case(base.patch(Json::parse(broken.patch)).dump(), ensemble());
    ASSERT_FALSE(read) << broken.patch;
    EXPECT_EQ(read.error().where, broken.where) << broken.patch << "\n" << read.error().message();
    EXPECT_NE(read.error().message().find(broken.word), std::string::npos) << read.error().message();
    EXPECT_FALSE(read.error().remedy.empty()) << broken.patch;
}

TEST(BrokenCases, each_is_refused_at_the_right_place) {
    for (
        const Broken& broken : std::initializer_list<Broken>{
            {R"([{"op":"replace","path":"/mitefall_case","value":2}])", "/mitefall_case", "newer"},
            {R"([{"op":"replace","path":"/mitefall_case","value":"1"}])", "/mitefall_case", "number"},
            {R"([{"op":"remove","path":"/mitefall_case"}])", "/mitefall_case", "missing"},
            {R"([{"op":"remove","path":"/title"}])", "/title", "missing"},
            {R"([{"op":"replace","path":"/title","value":""}])", "/title", "missing"},
            {R"([{"op":"replace","path":"/title","value":"a\u0000b"}])", "/title", "plain"},
            {R"([{"op":"replace","path":"/horizon_days","value":0}])", "/horizon_days", "above 0"},
            {R"([{"op":"replace","path":"/horizon_days","value":3651}])", "/horizon_days", "3650"},
            {R"([{"op":"add","path":"/horizon","value":1}])", "/horizon", "no such key"},
            {R"([{"op":"add","path":"/a~1b~0c","value":1}])", "/a~1b~0c", "no such key"},
            {R"([{"op":"replace","path":"/places","value":[]}])", "/places", "no place"},
            {R"([{"op":"replace","path":"/places","value":{}}])", "/places", "list"},
            {R"([{"op":"replace","path":"/places/0","value":7}])", "/places/0", "object"},
            {R"([{"op":"replace","path":"/places/0/kind","value":"hall"}])", "/places/0/kind",
             "room, enclosure"},
            {R"([{"op":"add","path":"/places/0/animals","value":1}])", "/places/0/animals", "no such key"},
            {R"([{"op":"remove","path":"/places/1/animals"}])", "/places/1/animals", "missing"},
            {R"([{"op":"replace","path":"/places/1/animals","value":1.5}])", "/places/1/animals", "whole"},
            {R"([{"op":"replace","path":"/places/1/animals","value":-1}])", "/places/1/animals", "0 to"},
            {R"([{"op":"replace","path":"/places/1/material","value":"glass"}])", "/places/1/material",
             "sealed, porous"},
            {R"([{"op":"replace","path":"/places/1/temperature_c","value":99}])", "/places/1/temperature_c",
             "60"},
            {R"([{"op":"replace","path":"/places/1/temperature_c","value":{"day":30}}])",
             "/places/1/temperature_c/night", "missing"},
            {R"([{"op":"replace","path":"/places/1/temperature_c","value":{"day":30,"night":20,"dusk":25}}])",
             "/places/1/temperature_c/dusk", "no such key"},
            {R"([{"op":"replace","path":"/places/1/humidity_percent","value":101}])",
             "/places/1/humidity_percent", "100"},
            {R"([{"op":"replace","path":"/places/1/name","value":"room"}])", "/places/1/name", "two places"},
            {R"([{"op":"replace","path":"/places/1/room","value":"attic"}])", "/places/1/room",
             "no such place"},
            {R"([{"op":"replace","path":"/places/1/room","value":"b"}])", "/places/1/room", "sort"},
            {R"([{"op":"add","path":"/places/1/adjoining","value":["room"]}])", "/places/1/adjoining",
             "no such key"},
            {R"([{"op":"add","path":"/places/0/adjoining","value":["room"]}])", "/places/0/adjoining/0",
             "another room"},
            {R"([{"op":"add","path":"/places/0/adjoining","value":[3]}])", "/places/0/adjoining/0",
             "another room"},
            {R"([{"op":"remove","path":"/mites"}])", "/mites", "neither"},
            {R"([{"op":"add","path":"/sightings","value":[]}])", "/sightings", "both"},
            {R"([{"op":"replace","path":"/mites/0/stage","value":"nymph"}])", "/mites/0/stage",
             "protonymph-seeking"},
            {R"([{"op":"replace","path":"/mites/2/stage","value":"deutonymph"}])", "/mites/2/stage", "room"},
            {R"([{"op":"replace","path":"/mites/0/count","value":0}])", "/mites/0/count", "above 0"},
            {R"([{"op":"replace","path":"/mites/0/count","value":2.5}])", "/mites/0/count", "whole"},
            {R"([{"op":"add","path":"/actions/0/animals","value":[1]}])", "/actions/0/animals", "part"},
            {R"([{"op":"add","path":"/actions/3/animals","value":[]}])", "/actions/3/animals",
             "at least one"},
            {R"([{"op":"add","path":"/actions/3/animals","value":[0]}])", "/actions/3/animals/0", "1, 2, 3"},
            {R"([{"op":"add","path":"/actions/3/animals","value":[2]}])", "/actions/3", "at most 1"},
            {R"([{"op":"add","path":"/actions/2/animal","value":3}])", "/actions/2", "at most 2"},
            {R"([{"op":"add","path":"/actions/11/animals","value":[1]}])", "/actions/11/animals",
             "on-animal"},
            {R"([{"op":"add","path":"/parameters/laying_time","value":0.05},{"op":"add","path":"/parameters/eggs_per_meal","value":1000}])",
             "/parameters", "laying_time"},
            {R"([{"op":"replace","path":"/mites/1/substage","value":64}])", "/mites/1/substage", "63"},
            {R"([{"op":"replace","path":"/mites/0/place","value":"z"}])", "/mites/0/place", "no such place"},
            {R"([{"op":"replace","path":"/actions/0/action","value":"pray"}])", "/actions/0/action",
             "treatment"},
            {R"([{"op":"replace","path":"/actions/0/day","value":-1}])", "/actions/0/day", "0 to 40"},
            {R"([{"op":"replace","path":"/actions/0/day","value":41}])", "/actions/0/day", "0 to 40"},
            {R"([{"op":"replace","path":"/actions/0/chance","value":1.01}])", "/actions/0/chance", "0 to 1"},
            {R"([{"op":"replace","path":"/actions/0/chance","value":"laying_time"}])", "/actions/0/chance",
             "kill_soak"},
            {R"([{"op":"replace","path":"/actions/0/chance","value":null}])", "/actions/0/chance", "number"},
            {R"([{"op":"replace","path":"/actions/0/reach","value":"all"}])", "/actions/0/reach",
             "mobile-nest"},
            {R"([{"op":"add","path":"/actions/0/days","value":1}])", "/actions/0/days", "no such key"},
            {R"([{"op":"replace","path":"/actions/1/place","value":"room"}])", "/actions/1/place",
             "enclosure"},
            {R"([{"op":"replace","path":"/actions/1/half_life_days","value":0}])",
             "/actions/1/half_life_days", "0.05"},
            {R"([{"op":"replace","path":"/actions/2/to","value":"a"}])", "/actions/2/to", "same place"},
            {R"([{"op":"replace","path":"/actions/2/from","value":"b"},{"op":"replace","path":"/actions/2/to","value":"a"}])",
             "/actions/2", "empty enclosure"},
            {R"([{"op":"replace","path":"/actions/5/place","value":"b"},{"op":"replace","path":"/actions/5/day","value":1}])",
             "/actions/5", "empty enclosure"},
            {R"([{"op":"remove","path":"/actions/7/humidity_percent"}])", "/actions/7/humidity_percent",
             "missing"},
            {R"([{"op":"replace","path":"/actions/9/stage","value":"adult-feeding-1"}])", "/actions/9/stage",
             "room"},
            {R"([{"op":"replace","path":"/actions/10/method","value":"magic"}])", "/actions/10/method",
             "spray-animal"},
            {R"([{"op":"replace","path":"/actions/10/method","value":"treat-room"}])", "/actions/10/place",
             "room"},
            {R"([{"op":"replace","path":"/actions/10/method","value":"spray-animal"}])",
             "/actions/10/strength_mg_per_l", "missing"},
            {R"([{"op":"add","path":"/actions/10/strength_mg_per_l","value":10}])",
             "/actions/10/strength_mg_per_l", "no such key"},
            {R"([{"op":"replace","path":"/checks/0/place","value":"room"}])", "/checks/0/place", "enclosure"},
            {R"([{"op":"replace","path":"/checks/0/detection","value":1}])", "/checks/0/detection", "0.999"},
            {R"([{"op":"replace","path":"/checks/0/day","value":"12"}])", "/checks/0/day", "number"},
            {R"([{"op":"replace","path":"/parameters","value":[]}])", "/parameters", "object"},
            {R"([{"op":"replace","path":"/parameters/erlang_shape","value":65}])", "/parameters/erlang_shape",
             "64"},
            {R"([{"op":"replace","path":"/parameters/erlang_shape","value":2.5}])",
             "/parameters/erlang_shape", "whole"},
            {R"([{"op":"add","path":"/parameters/neighbours","value":3}])", "/parameters/neighbours",
             "no such parameter"},
            {R"([{"op":"add","path":"/parameters/laying_time","value":0}])", "/parameters/laying_time",
             "0.05"},
            {R"([{"op":"add","path":"/parameters/kill_soak","value":-0.1}])", "/parameters/kill_soak",
             "0 to 1"}}) {
        expect_refused(sound(), broken);
    }
}

TEST(BrokenCases, sightings_are_refused_at_the_right_place) {
    for (
        const Broken& broken : std::initializer_list<Broken>{
            {R"([{"op":"replace","path":"/sightings","value":[]}])", "/sightings", "no sighting"},
            {R"([{"op":"replace","path":"/sightings/0/count","value":"none"}])", "/sightings/0/count",
             "no sighting"},
            {R"([{"op":"replace","path":"/sightings/0/count","value":3}])", "/sightings/0/count", "text"},
            {R"([{"op":"replace","path":"/sightings/0/where","value":"everywhere"}])", "/sightings/0/where",
             "in-water"},
            {R"([{"op":"replace","path":"/sightings/0/place","value":"hall"}])", "/sightings/0/place",
             "enclosure"},
            {R"([{"op":"replace","path":"/sightings/0/days_since_entry","value":0}])",
             "/sightings/0/days_since_entry", "1 to 120"},
            {R"([{"op":"replace","path":"/places/2/animals","value":0}])", "/sightings/0/place", "animal"},
            {R"([{"op":"add","path":"/sightings/1","value":{"place":"tub 1","count":"1","where":"on-paper","days_since_entry":9}}])",
             "/sightings/1/place", "two sightings"},
            {R"([{"op":"add","path":"/parameters/detection_light","value":0}])",
             "/parameters/detection_light", "above 0"},
            {R"([{"op":"add","path":"/parameters/detection_nest_part","value":0},{"op":"replace","path":"/sightings/0/where","value":"on-paper"}])",
             "/parameters/detection_nest_part", "above 0"}}) {
        expect_refused(sighted(), broken);
    }
}

TEST(BrokenCases, text_that_is_not_json_is_refused_by_line_and_column) {
    const std::pair<std::string, std::string> broken[] = {
        {"", "line 1, column 0"},
        {"{\n  \"title\": oops}", "line 2, column 12"},
        {"{\"horizon_days\": 1e999}", "line 1, column 22"},
        {"{\"a\": 1} x", "line 1, column 10"},
        {"{\"title\": \"\xff\"}", "line 1, column 12"},
        {"{\"horizon_days\": NaN}", "line 1, column 18"},
    };
    for (const auto& [text, where] : broken) {
        const auto read = read_case(text, ensemble());
        ASSERT_FALSE(read) << text;
        EXPECT_EQ(read.error().where, where) << text;
        EXPECT_FALSE(faults_of(write_json(error_envelope("forecast", read.error())), "error").size()) << text;
    }
}

TEST(BrokenCases, a_key_that_stands_twice_is_refused) {
    const auto read = read_case(R"({"title": "a", "places": [{}, {"name": "x", "name": "y"}]})", ensemble());
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().where, "/places/1/name");
}

TEST(BrokenCases, depth_and_size_are_bounded) {
    const auto deep = read_case(std::string(100'000, '['), ensemble());
    ASSERT_FALSE(deep);
    EXPECT_NE(deep.error().what.find("levels"), std::string::npos);
    const auto large = read_case(std::string(most_case_bytes + 1, ' '), ensemble());
    ASSERT_FALSE(large);
    EXPECT_NE(large.error().what.find("too large"), std::string::npos);
}

// Any part of a sound file taken out or replaced by anything: never an exception, always a reason.
RC_GTEST_PROP(BrokenCases, damage_is_an_error_or_a_sound_case, ()) {
    const std::string text = (*rc::gen::arbitrary<bool>() ? sound() : sighted()).dump();
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
    const auto length = *rc::gen::inRange<std::size_t>(0, 40);
    std::string damaged = text;
    damaged.replace(
        at, length,
        *rc::gen::element<std::string>("", "0", "-1", "\"\"", "null", "{}", "[]", "a", "\xff", "}", "9e99"));
    const auto read = read_case(damaged, ensemble());
    if (read)
        RC_ASSERT(scenario::check_scenario(read->scenario).has_value());
    else
        RC_ASSERT(!read.error().where.empty() && !read.error().what.empty());
}

}  // namespace
}  // namespace mitefall::formats
