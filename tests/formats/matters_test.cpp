#include "formats/json/matters.h"
#include "formats/json/json.h"
#include "formats/learnable.h"
#include "formats/text/matters.h"
#include "plan/told.h"

#include <gtest/gtest.h>

#include "scene.h"
#include "schemas.h"

namespace mitefall::formats {
namespace {

TEST(Learnable, every_drawn_parameter_has_a_lesson) {
    for (const forecast::DrawnInput& input : forecast::drawn_inputs(ensemble()))
        EXPECT_TRUE(has_lesson(input.key)) << input.key;
}

forecast::Sensitivity two_of_many() {
    forecast::Sensitivity found;
    found.named = {{"host_finding_adult", 0.41, 0.5, -0.6, 0.17, 0.29, 0.8, 0.31}};
    found.rest = {{"sighting_quantile", -0.01, 0.02, 0.1, 0.33, 0.67, 0.5, 0.6}};
    found.chance_level = 0.08;
    found.effective_draws = 256;
    return found;
}

TEST(Matters, is_as_its_schema_says) {
    const auto found = two_of_many();
    const Json json = matters_json({plan::told::rounds_apart(2, 7), true, {0.6, 0.2, 0.9}, found, tables()});
    EXPECT_EQ(faults_of(json, "matters"), "");
    EXPECT_EQ(json["matters"][0]["can_be_learned"], "no");
    EXPECT_EQ(json["rest"][0]["can_be_learned"], "yes");
}

TEST(Matters, tells_the_answer_at_both_ends_and_what_cannot_be_known) {
    const auto found = two_of_many();
    const std::string text =
        matters_text({plan::told::rounds_apart(2, 7), true, {0.6, 0.2, 0.9}, found, tables()});
    EXPECT_NE(text.find("low (0.17 per day or less): 80 %"), std::string::npos) << text;
    EXPECT_NE(text.find("31 %"), std::string::npos) << text;
    EXPECT_NE(text.find("You cannot find out"), std::string::npos) << text;
}

}  // namespace
}  // namespace mitefall::formats
