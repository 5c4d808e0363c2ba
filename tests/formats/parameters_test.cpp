#include <gtest/gtest.h>

#include <cmath>

#include "formats/json/parameters.h"
#include "mites/rates.h"
#include "scene.h"
#include "schemas.h"

namespace mitefall::formats {
namespace {

const Json& with_draws() {
    static const Json json = parameters_json(ensemble(), tables(), 5, true);
    return json;
}

double mode_of(const std::string& key) {
    for (const Json& row : with_draws()["parameters"]) {
        if (row["key"] == key) return row["mode"];
    }
    throw std::runtime_error("no parameter " + key);
}

const Json& stage_at(double celsius, const std::string& stage) {
    for (const Json& climate : with_draws()["rates_at_mode"]) {
        if (climate["temperature_c"] != celsius) continue;
        for (const Json& row : climate["stages"]) {
            if (row["stage"] == stage) return row;
        }
    }
    throw std::runtime_error("no rates for " + stage);
}

TEST(Parameters, are_as_their_schema_says) {
    EXPECT_EQ(faults_of(with_draws(), "parameters"), "");
    EXPECT_EQ(faults_of(parameters_json(ensemble(), tables(), 5, false), "parameters"), "");
}

TEST(Parameters, list_every_drawn_parameter_in_the_order_of_the_draws) {
    const auto fields = mites::parameter_fields();
    for (std::size_t i = 0; i < fields.size(); ++i) {
        EXPECT_EQ(with_draws()["parameters"][i]["key"], fields[i].key);
        EXPECT_EQ(with_draws()["parameters"][i]["drawn"], true);
    }
}

TEST(Parameters, draws_come_back_to_the_bit) {
    const Json back = Json::parse(write_json(with_draws()))["draws"];
    ASSERT_EQ(back.size(), ensemble().draws.size());
    for (std::size_t i = 0; i < back.size(); ++i) {
        for (const auto& field : mites::parameter_fields()) {
            EXPECT_EQ(back[i][std::string(field.key)].get<double>(), ensemble().draws[i].*field.member);
        }
        EXPECT_EQ(back[i]["erlang_shape"], ensemble().draws[i].erlang_shape);
        EXPECT_EQ(back[i]["sighting_quantile"].get<double>(), ensemble().draws[i].sighting_quantile);
    }
}

// The worked rates against the formulas of the "model" object, worked out here by hand.
TEST(Parameters, worked_rates_follow_the_formulas_given) {
    const double k = mode_of("erlang_shape");
    const Json& egg = stage_at(30, "egg");
    EXPECT_NEAR(egg["advance_per_day"], k * 24 / 28, 1e-12);  // 28 h at 30 C: Camin 1953
    EXPECT_NEAR(egg["loss_per_day"], k * 24 / 28 * (std::pow(mode_of("egg_survival_humid"), -1 / k) - 1),
                1e-12);
    const Json& larva = stage_at(25, "larva");
    EXPECT_NEAR(larva["advance_per_day"], k * 24 * (1 / 47.0 + 1 / 18.0) / 2,
                1e-12);  // halfway between 20 and 30 C
    const Json& seeking = stage_at(25, "adult-seeking-2");
    EXPECT_EQ(seeking["substages"], mode_of("unfed_shape"));
    EXPECT_NEAR(seeking["advance_per_day"], mode_of("unfed_shape") / mode_of("unfed_adult_life"), 1e-12);
    EXPECT_EQ(seeking["loss_per_day"], 0);
    EXPECT_EQ(seeking["finding_per_day"], mode_of("host_finding_adult"));
    const Json& laying = stage_at(28, "adult-laying-1");
    EXPECT_NEAR(laying["laying_per_day"],
                mode_of("eggs_per_meal") * mode_of("daughters_per_egg") / mode_of("laying_time"), 1e-12);
    EXPECT_NEAR(stage_at(30, "adult-laying-1")["advance_per_day"],
                k / mode_of("laying_time") * std::pow(mode_of("unfed_life_q10"), 0.2), 1e-12);
    EXPECT_NEAR(stage_at(28, "adult-laying-2")["next_meal"], mode_of("adult_survival_per_cycle") * 0.5,
                1e-12);  // 2.5 meals
    EXPECT_EQ(stage_at(28, "adult-laying-3")["next_meal"], 0);
    EXPECT_NEAR(with_draws()["detection_per_mite_at_mode"],
                1 - std::pow(1 - mode_of("detection_light"), 1 / mode_of("detection_light_mites")), 1e-12);
}

TEST(Parameters, development_table_holds_the_published_durations) {
    const Json& egg = with_draws()["development"]["stages"][0];
    EXPECT_EQ(egg["hours_at_20c"], 98);  // Camin 1953
    EXPECT_EQ(egg["hours_at_30c"], 28);
}

}  // namespace
}  // namespace mitefall::formats
