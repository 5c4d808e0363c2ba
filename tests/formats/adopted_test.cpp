#include "formats/adopted.h"
#include "formats/json/adopted.h"
#include "formats/json/json.h"
#include "formats/text/adopted.h"

#include <gtest/gtest.h>

#include "scene.h"

namespace mitefall::formats {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Method;
using records::PlanAdopted;

const units::Day first = units::parse_day("2026-03-10").value();

PlanAdopted with_terms() {
    PlanAdopted plan{
        {first}, {EnclosureId("a"), EnclosureId("b")}, {}, {false, true}, units::milligrams_per_litre(10)};
    plan.terms.scope = "sighted";
    const auto row = [&](const char* place, const char* animal, Method method) {
        plan.terms.treatments.push_back(
            {"task", first, first, {}, EnclosureId(place), {AnimalId(animal)}, method});
    };
    row("a", "calm", Method::spray_animal);
    row("a", "cloudy", Method::soak);
    row("a", "calm", Method::spray_bedding);
    for (const char* const id : {"cloudy", "small"})
        plan.terms.left_out.push_back({first, EnclosureId("a"), AnimalId(id), Method::spray_animal, "no"});
    plan.terms.left_out.push_back({first, EnclosureId("b"), AnimalId("sick"), Method::spray_animal, "ask"});
    return plan;
}

TEST(AdoptedCourse, tells_who_is_an_exception_and_how) {
    const auto exceptions = exceptions_of(with_terms());
    ASSERT_EQ(exceptions.size(), 3U) << "calm is sprayed as meant";
    EXPECT_EQ(describe(exceptions[0]), "soaked");
    EXPECT_EQ(describe(exceptions[1]), "left to bedding only");
    EXPECT_EQ(describe(exceptions[2]), "left out");
    EXPECT_EQ(exceptions[2].reason, "ask");
}

TEST(AdoptedCourse, of_a_journal_of_before_says_what_is_not_known) {
    const PlanAdopted before{{first}, {EnclosureId("a")}, {}, {true, true}, units::milligrams_per_litre(10)};
    const Json json = adopted_json({first, 1, before}, tables());
    for (const char* const key : {"scope", "rounds", "exceptions", "left_out"})
        EXPECT_TRUE(json[key].is_null()) << key << ": unknown is not none";
    EXPECT_EQ(json["days"], Json({"2026-03-10"}));
    EXPECT_NE(adopted_text({first, 1, before}, {}).find("not on record"), std::string::npos);
}

TEST(AdoptedCourse, tells_once_of_an_enclosure_whose_bedding_is_refused) {
    PlanAdopted plan = with_terms();
    for (int round = 0; round < 2; ++round)
        plan.terms.left_out.push_back({first, EnclosureId("b"), {}, Method::spray_bedding, "weigh it"});
    const std::string text = adopted_text({first, 1, plan}, {});
    const auto at = text.find("weigh it");
    ASSERT_NE(at, std::string::npos) << text;
    EXPECT_EQ(text.find("weigh it", at + 1), std::string::npos) << text;
}

TEST(AdoptedCourse, says_that_the_check_of_the_day_wins) {
    const std::string text = adopted_text({first, 1, with_terms()}, {});
    EXPECT_NE(text.find("\"never\" or \"ask a veterinarian\" wins"), std::string::npos) << text;
}

}  // namespace
}  // namespace mitefall::formats
