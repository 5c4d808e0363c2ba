#include "formats/json/late.h"
#include "formats/json/json.h"
#include "formats/json/overview.h"
#include "formats/json/worklist.h"
#include "formats/text/late.h"

#include <gtest/gtest.h>

#include "schemas.h"

namespace mitefall::formats {
namespace {

const units::Day today = units::parse_day("2026-03-16").value();

units::Day ago(int days) { return today - units::Days(days); }

worklist::Late all_of_it() {
    worklist::Late late;
    late.dishes = {{records::EnclosureId("a"), ago(6), ago(3)}, {records::EnclosureId("b"), {}, {}}};
    late.rounds = {{2, 4, ago(6), 24, 12, 3, 20, true}};
    late.check = {ago(2), {records::EnclosureId("a")}};
    late.today = {
        {ago(13), today, today + units::Days(3)}, {{ago(7), today}}, {{ago(-1), ago(-3)}}, {ago(6)}};
    late.move = {{ago(13), today, today + units::Days(7)}, {}, {}, {}};
    return late;
}

TEST(Late, is_as_its_schemas_say) {
    worklist::Worklist list;
    list.day = today;
    list.late = all_of_it();
    EXPECT_EQ(faults_of(worklist_json(list), "worklist"), "");
    worklist::Overview overview;
    overview.day = today;
    overview.late = all_of_it();
    EXPECT_EQ(faults_of(overview_json(overview, {{worklist::TaskKind::check, {}, 2}}), "web-situation"), "");
    EXPECT_EQ(faults_of(late_chances_json({ago(6), {{0.9, 0.8, 0.95}}, {0.8, 0.7, 0.9}, {}}), "late"), "");
    EXPECT_EQ(late_json({}), Json(nullptr));
}

TEST(Late, is_told_with_the_dishes_first_and_what_to_type) {
    records::Collection collection;
    collection.day = today;
    const std::string text = late_text(all_of_it(), collection);
    EXPECT_LT(text.find("a: no water dish"), text.find("Round 2 of 4")) << text;
    EXPECT_NE(text.find("nobody knows since when"), std::string::npos) << text;
    EXPECT_NE(text.find("\"catch-up move\""), std::string::npos) << text;
    EXPECT_EQ(late_text({}, collection), "");
}

}  // namespace
}  // namespace mitefall::formats
