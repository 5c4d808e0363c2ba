#include <gtest/gtest.h>

#include "formats/json/clearance.h"
#include "formats/json/json.h"
#include "formats/json/next_check.h"
#include "formats/json/release.h"
#include "formats/text/clearance.h"
#include "formats/text/next_check.h"
#include "formats/text/release.h"
#include "scene.h"
#include "schemas.h"

namespace mitefall::formats {
namespace {

using records::EnclosureId;

clearance::Sureness sure(double risk) {
    return {{1 - risk, 1 - 2 * risk, 1 - risk / 2}, {risk, risk / 2, 2 * risk}, 12};
}

clearance::Outlook outlook(bool with_waiting) {
    clearance::Outlook outlook;
    outlook.points.push_back({3, sure(0.2), with_waiting ? std::optional(sure(0.2)) : std::nullopt, 1});
    outlook.points.push_back({10, sure(1e-7), with_waiting ? std::optional(sure(0.1)) : std::nullopt, 0.9});
    outlook.checked = {{0.95, 10, 10}, {0.99, 10, std::nullopt}, {0.999, std::nullopt, std::nullopt}};
    if (with_waiting) outlook.waited = outlook.checked;
    return outlook;
}

clearance::CollectionAnswer collection_answer() {
    clearance::CollectionAnswer answer;
    answer.origin = today - units::Days(3);
    answer.last_sighting = today - units::Days(1);
    answer.today = today;
    answer.looked_at = {EnclosureId("a"), EnclosureId("b")};
    answer.places = {{{EnclosureId("a"), EnclosureId("b")}, {}, sure(0.1)},
                     {{}, records::RoomId("snakes"), sure(1e-3)}};
    answer.outlook = outlook(true);
    answer.at_low = answer.at_high = outlook(false);
    return answer;
}

clearance::NextCheckAnswer next_check_answer() {
    clearance::NextCheckAnswer answer;
    answer.last_sighting = answer.today = today;
    const clearance::Candidate candidate{0, 1, records::CheckMethod::paper_trap, 3};
    answer.checks = {
        {{EnclosureId("a")}, today, 0, units::hours_long(0.05), {candidate, 0.4, sure(0.2), sure(0.1)}}};
    answer.spot = {40, 2, 0.95, std::nullopt};
    return answer;
}

clearance::ReleaseAnswer release_answer() {
    clearance::ReleaseAnswer answer;
    answer.animal = records::AnimalId("pim");
    answer.arrived = today - units::Days(3);
    answer.today = today;
    answer.usual_from = answer.arrived + units::Days(60);
    answer.usual_to = answer.arrived + units::Days(90);
    clearance::Release release{0.9, {{3, sure(0.1)}}, outlook(false).checked, outlook(false).checked};
    answer.release = answer.at_low = answer.at_high = release;
    return answer;
}

TEST(ClearanceOutput, is_as_its_schema_says) {
    const Json json = clearance_json(collection_answer());
    EXPECT_EQ(faults_of(json, "clear"), "");
    EXPECT_EQ(json["outlook"]["points"][1]["day"], units::format_day(today + units::Days(7)));
    EXPECT_EQ(json["outlook"]["points"][1]["checked"]["risk"]["mean"], 1e-7) << "a risk keeps its digits";
    EXPECT_EQ(json["outlook"]["checked"][2]["at_mean"], nullptr) << "not within these rounds";
    EXPECT_EQ(json["places"][1]["room"], "snakes");
}

TEST(ClearanceOutput, next_check_is_as_its_schema_says) {
    const Json json = next_check_json(next_check_answer());
    EXPECT_EQ(faults_of(json, "next-check"), "");
    EXPECT_EQ(json["spot_check"]["to_check"], nullptr) << "looking over all would not do";
    EXPECT_NEAR(json["checks"][0]["work_hours"].get<double>(), 0.05, 1e-12);
}

TEST(ClearanceOutput, release_is_as_its_schema_says) {
    EXPECT_EQ(faults_of(release_json(release_answer()), "release"), "");
}

TEST(ClearanceOutput, text_names_the_risk_where_the_chance_is_all_but_certain) {
    const std::string text = clearance_text(collection_answer(), scene().collection);
    EXPECT_NE(text.find("1 in 10000000"), std::string::npos) << text;
    EXPECT_NE(text.find("not within these rounds"), std::string::npos);
    EXPECT_NE(text.find("our assumption"), std::string::npos) << "detection is never shown without this";
}

TEST(ClearanceOutput, text_says_when_a_range_rests_on_hardly_any_draw) {
    auto answer = collection_answer();
    const std::string note = "hardly any draw";
    EXPECT_EQ(clearance_text(answer, scene().collection).find(note), std::string::npos);
    answer.outlook.points[1].checked.effective_draws = 1.2;
    EXPECT_NE(clearance_text(answer, scene().collection).find(note), std::string::npos);
}

TEST(ClearanceOutput, other_texts_say_what_they_rest_on) {
    const std::string next = next_check_text(next_check_answer());
    EXPECT_NE(next.find("paper trap"), std::string::npos);
    EXPECT_NE(next.find("could still miss"), std::string::npos);
    EXPECT_NE(release_text(release_answer()).find("not before the usual 60 days"), std::string::npos);
}

}  // namespace
}  // namespace mitefall::formats
