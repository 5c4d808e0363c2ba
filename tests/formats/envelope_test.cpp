#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <bit>
#include <limits>

#include "formats/json/damage.h"
#include "formats/json/evidence.h"
#include "formats/json/forecast.h"
#include "formats/json/json.h"
#include "formats/json/mixed.h"
#include "formats/text/damage.h"
#include "safety/cautions.h"
#include "scene.h"
#include "schemas.h"

namespace mitefall::formats {
namespace {

using base::ErrorKind;

TEST(Envelope, names_format_command_and_result) {
    EXPECT_EQ(envelope("show", Json::parse(R"({"a": 1})")).dump(),
              R"({"mitefall":1,"command":"show","result":{"a":1}})");
}

TEST(Envelope, every_error_is_as_its_schema_says) {
    for (const ErrorKind kind :
         {ErrorKind::invalid_input, ErrorKind::not_found, ErrorKind::already_exists, ErrorKind::conflict,
          ErrorKind::refused, ErrorKind::unsupported, ErrorKind::damaged, ErrorKind::system}) {
        const base::Error error{kind, "what", "value", "limit", "remedy", "where"};
        const Json json = error_envelope("plan", error);
        EXPECT_EQ(faults_of(write_json(json), "error"), "");
        EXPECT_EQ(json["error"]["message"], error.message());
    }
}

TEST(Envelope, damage_stands_beside_result_and_error) {
    const std::vector<records::SetAside> damage(30, {17,
                                                     {ErrorKind::damaged, "not a number", "\"heavy\"",
                                                      "a JSON number", "withdraw entry 17", "entry 17"}});
    Json result = envelope("undo", Json{{"ids", {1}}});
    result["damage"] = damage_json(damage);
    EXPECT_EQ(faults_of(write_json(result), "recorded"), "");
    EXPECT_EQ(result["damage"].size(), 20U);
    EXPECT_EQ(result["damage"][0]["entry"], 17);
    Json error = error_envelope("undo", damage.front().why);
    error["damage"] = damage_json(damage);
    EXPECT_EQ(faults_of(write_json(error), "error"), "");
    const std::string text = damage_text(damage);
    EXPECT_NE(text.find("30 entries"), std::string::npos);
    EXPECT_NE(text.find("and 10 more"), std::string::npos);
    EXPECT_EQ(damage_text({}), "");
}

TEST(Envelope, text_that_is_not_utf8_can_still_be_written) {
    const Json json = error_envelope("mix", base::invalid("no such unit", "\xff\xfe", "mL"));
    EXPECT_NE(write_json(json).find("\xEF\xBF\xBD"), std::string::npos);
}

// JSON escapes C0 by itself; a terminal obeys more than that.
TEST(Envelope, what_a_terminal_would_obey_is_escaped_and_reads_back_the_same) {
    std::string text;
    for (const char* const one : {"\x1B[2J", "\x7F", "\u0080", "\u009B", "\u061C", "\u200E", "\u200F",
                                  "\u2028", "\u2029", "\u202A", "\u202E", "\u2066", "\u2069"})
        text += one;
    const std::string kept = "\u00A0\u00C2\u2027\u202F\u2065\u206A\u20AC\u0635\U0001F40D";
    const std::string written = write_json(Json{{"a", text + kept}, {text, 1}});
    for (const char* const one :
         {"\x1B", "\x7F", "\xC2\x80", "\xC2\x9B", "\u061C", "\u200E", "\u2028", "\u202E", "\u2066"})
        EXPECT_EQ(written.find(one), std::string::npos);
    EXPECT_NE(written.find(kept), std::string::npos);
    const Json back = Json::parse(written);
    EXPECT_EQ(back["a"], text + kept);
    EXPECT_EQ(back[text], 1);
}

// The schemas must be able to refuse: a test that holds outputs against them proves nothing otherwise.
TEST(Schemas, refuse_what_is_missing_extra_or_of_the_wrong_sort) {
    const Json good = Json::parse(R"({"ids": [1, 2]})");
    EXPECT_EQ(faults_of(good, "recorded"), "");
    for (const char* const bad :
         {R"({})", R"({"ids": [1], "more": 2})", R"({"ids": ["1"]})", R"({"ids": [0]})", R"([])"}) {
        EXPECT_NE(faults_of(Json::parse(bad), "recorded"), "") << bad;
    }
    Json other_format = envelope("x", good);
    other_format["mitefall"] = 2;
    EXPECT_NE(faults_of(write_json(other_format), "recorded"), "");
}

TEST(Schemas, all_of_them_parse) {
    for (const char* const name : {"tonight", "new", "ticked", "rescore", "simulation", "case"}) {
        EXPECT_NE(faults_of(std::string(R"({"mitefall": 1})"), name), "") << name;
    }
}

TEST(Mix, is_as_its_schema_says_with_and_without_a_measurement) {
    worklist::Bench bench;
    bench.stock.strength = units::percent_mass_in_volume(1);
    bench.tools = mixing::usual_syringes();
    const auto made = [&](units::Volume batch) {
        return worklist::make_mix_sheet(bench, batch, units::milligrams_per_litre(10), today, tables())
            .value();
    };
    const auto cautions = safety::cautions_for(records::Method::spray_animal, tables());
    const Json with = mixed_json(made(units::litres(1)), cautions);
    EXPECT_EQ(faults_of(with, "mix"), "");
    EXPECT_DOUBLE_EQ(with["recipe"]["stock_ml"], 1.0);  // 10 mg of 10 mg/mL
    EXPECT_EQ(with["cannot_measure"], nullptr);
    EXPECT_EQ(with["cautions"].size(), cautions.size());
    EXPECT_EQ(with["pre_dilution"], nullptr);
    const Json diluted = mixed_json(made(units::millilitres(100)), cautions);
    EXPECT_EQ(faults_of(diluted, "mix"), "");
    EXPECT_DOUBLE_EQ(diluted["pre_dilution"]["strength"]["nominal_mg_per_l"], 1000);  // one part in ten
    worklist::MixSheet rounder = made(units::millilitres(100));
    worklist::propose_round(rounder, bench, units::UnitSystem::metric, tables());
    const Json round = mixed_json(rounder, cautions);
    EXPECT_EQ(faults_of(round, "mix"), "");
    EXPECT_DOUBLE_EQ(round["round"]["total_ml"], 200);
    bench.tools = {mixing::graduated_tool("bucket", units::litres(10), units::litres(1))};
    const Json without = mixed_json(made(units::litres(1)), cautions);
    EXPECT_EQ(faults_of(without, "mix"), "");
    EXPECT_NE(without["cannot_measure"], nullptr);
}

TEST(Evidence, is_as_its_schema_says_and_complete) {
    const Json json = evidence_json(tables());
    EXPECT_EQ(faults_of(json, "evidence"), "");
    EXPECT_EQ(json["parameters"].size(), tables().rows().size());
    EXPECT_EQ(json["sources"].size(), tables().sources().size());
}

TEST(Numbers, what_is_not_finite_becomes_null) {
    forecast::Forecast forecast;
    forecast.clear = {0.5, -std::numeric_limits<double>::infinity(), std::nan("")};
    const Json json = forecast_json(forecast, std::nan(""));
    EXPECT_EQ(faults_of(json, "forecast"), "");
    EXPECT_EQ(json["clear"]["p10"], nullptr);
    EXPECT_EQ(json["clear"]["p90"], nullptr);
    EXPECT_EQ(json["clear_at_mode"], nullptr);
}

RC_GTEST_PROP(Numbers, survive_writing_and_reading, (std::uint64_t bits)) {
    const double value = std::bit_cast<double>(bits);
    RC_PRE(std::isfinite(value));
    forecast::Forecast forecast;
    forecast.clear.mean = value;
    const Json back = Json::parse(write_json(forecast_json(forecast, value)));
    RC_ASSERT(std::bit_cast<std::uint64_t>(back["clear"]["mean"].get<double>()) == bits);
}

}  // namespace
}  // namespace mitefall::formats
