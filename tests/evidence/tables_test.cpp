#include "evidence/tables.h"

#include <gtest/gtest.h>

#include <regex>

#include "base/contract.h"

namespace mitefall::evidence {
namespace {

const std::string sources = "[source]\nsomebody = \"Somebody 2001, A text\"\n";

/// The rows of one parameter, of which tests change one line.
std::string row(const std::string& changed_key, const std::string& line) {
    std::string text = "[parameter.least]\n";
    for (const auto& [key, usual] : std::initializer_list<std::pair<const char*, const char*>>{
             {"value", "value = 2.0"},
             {"low", "low = 1.0"},
             {"high", "high = 3.0"},
             {"unit", "unit = \"g\""},
             {"tag", "tag = \"R\""},
             {"source", "source = \"somebody\""},
             {"meaning", "meaning = \"Least mass\""}}) {
        text += (changed_key == key ? line : std::string(usual)) + "\n";
    }
    return text;
}

base::Result<Tables> load(const std::string& text) {
    const std::vector<TableText> files{{"sources.toml", sources}, {"rules.toml", text}};
    return Tables::load(files);
}

TEST(Tables, a_row_keeps_its_value_range_source_and_tag) {
    const Tables tables = load(row("", "")).value();
    const auto least = tables.mass(MassKey::at_run_time("least"));
    EXPECT_EQ(units::in_grams(least.value), 2);
    EXPECT_EQ(units::in_grams(least.low), 1);
    EXPECT_EQ(units::in_grams(least.high), 3);
    EXPECT_EQ(least.source, "Somebody 2001, A text");
    EXPECT_EQ(least.tag, Tag::read);
    EXPECT_EQ(least.meaning, "Least mass");
}

struct Broken {
    const char* key;
    const char* line;
    const char* place;  // file, line and key the error must name
};

class BrokenRow : public testing::TestWithParam<Broken> {};

TEST_P(BrokenRow, is_refused_with_file_line_and_key) {
    const auto tables = load(row(GetParam().key, GetParam().line));
    ASSERT_FALSE(tables);
    EXPECT_EQ(tables.error().kind, base::ErrorKind::damaged);
    EXPECT_EQ(tables.error().where, GetParam().place) << tables.error().message();
    EXPECT_FALSE(tables.error().what.empty());
    EXPECT_FALSE(tables.error().remedy.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Tables, BrokenRow,
    testing::Values(Broken{"unit", "unit = \"stone\"", "rules.toml:5: least.unit"},
                    Broken{"unit", "", "rules.toml:1: least.unit"},
                    Broken{"tag", "tag = \"X\"", "rules.toml:6: least.tag"},
                    Broken{"tag", "tag = \"P\"", "rules.toml:7: least.source"},  // P with a source
                    Broken{"tag", "tag = \"A\"", "rules.toml:7: least.source"},  // A with a source
                    Broken{"source", "", "rules.toml:1: least.source"},
                    Broken{"source", "source = \"nobody\"", "rules.toml:7: least.source"},
                    Broken{"low", "low = 2.5", "rules.toml:2: least.value"},    // low > value
                    Broken{"high", "high = 1.5", "rules.toml:2: least.value"},  // high < value
                    Broken{"value", "value = \"two\"", "rules.toml:2: least.value"},
                    Broken{"value", "", "rules.toml:1: least.value"},
                    Broken{"value", "value = nan", "rules.toml:2: least.value"},
                    Broken{"value", "value = inf", "rules.toml:2: least.value"},
                    Broken{"low", "low = -1.0", "rules.toml:3: least.low"},
                    Broken{"meaning", "", "rules.toml:1: least.meaning"},
                    Broken{"meaning", "meaning = \"x\"\ncolour = 3", "rules.toml:9: least.colour"}));

TEST(Tables, refuses_a_share_above_one) {
    const auto tables =
        load("[parameter.part]\nvalue = 1.5\nunit = \"share\"\ntag = \"A\"\nmeaning = \"x\"\n");
    ASSERT_FALSE(tables);
    EXPECT_EQ(tables.error().where, "rules.toml:2: part.value");
}

TEST(Tables, refuses_what_is_not_toml) {
    const auto tables = load("[parameter.least\nvalue = 1\n");
    ASSERT_FALSE(tables);
    EXPECT_EQ(tables.error().kind, base::ErrorKind::damaged);
    EXPECT_EQ(tables.error().where.find("rules.toml:1: "), 0U) << tables.error().where;
}

TEST(Tables, refuses_a_key_defined_twice_in_two_files) {
    const std::vector<TableText> files{{"a.toml", sources + row("", "")}, {"b.toml", row("", "")}};
    const auto tables = Tables::load(files);
    ASSERT_FALSE(tables);
    EXPECT_EQ(tables.error().where, "b.toml:1: least");
}

TEST(Tables, refuses_a_key_defined_twice_in_one_file) {
    const auto tables = load(row("", "") + row("", ""));
    ASSERT_FALSE(tables);
    EXPECT_EQ(tables.error().where.find("rules.toml:9: "), 0U) << tables.error().where;
}

TEST(Tables, refuses_an_unknown_section_and_a_source_without_text) {
    EXPECT_EQ(load("[parameters.least]\nvalue = 1\n").error().where, "rules.toml:1: parameters");
    EXPECT_EQ(load("[source]\nsomeone = 3\n").error().where, "rules.toml:2: someone");
}

TEST(Tables, an_unknown_key_or_another_unit_is_a_defect_of_the_program) {
    const Tables tables = load(row("", "")).value();
    EXPECT_THROW(static_cast<void>(tables.mass(MassKey::at_run_time("most"))), base::ContractViolation);
    EXPECT_THROW(static_cast<void>(tables.time(TimeKey::at_run_time("least"))), base::ContractViolation);
}

TEST(Tables, every_embedded_row_loads_and_says_where_it_comes_from) {
    const auto loaded = Tables::load_embedded();
    ASSERT_TRUE(loaded) << loaded.error().message();
    ASSERT_GT(loaded->rows().size(), 80U);  // rows of data/evidence when this was written
    for (const Tables::Row& row : loaded->rows()) {
        const bool is_ours = row.cited.tag == Tag::common_practice || row.cited.tag == Tag::assumption;
        EXPECT_EQ(row.cited.source.empty(), is_ours) << row.cited.key;
        EXPECT_FALSE(row.cited.meaning.empty()) << row.cited.key;
        EXPECT_EQ(row.cited.meaning.find('_'), std::string::npos) << row.cited.key;
        EXPECT_EQ(row.cited.meaning.find("docs"), std::string::npos)
            << row.cited.key << ": it is read by keepers, who know neither keys nor files";
        EXPECT_LE(row.cited.low, row.cited.value) << row.cited.key;
        EXPECT_LE(row.cited.value, row.cited.high) << row.cited.key;
    }
}

// A row read in a text can be looked up: its source names volume or edition, and pages.
TEST(Tables, what_was_read_can_be_looked_up) {
    const std::regex volume_and_pages(R"(\b\d+(\(\d+\))?:\d+(-\d+)?\b|\bed(ition|\.).*\bp\. ?\d+)");
    const Tables tables = Tables::load_embedded().value();
    for (const Tables::Row& row : tables.rows()) {
        if (row.cited.tag != Tag::read) continue;
        EXPECT_TRUE(std::regex_search(std::string(row.cited.source), volume_and_pages))
            << row.cited.key << ": " << row.cited.source;
    }
}

// safety.md, table of gates and mixing arithmetic.
TEST(Tables, the_rules_have_the_values_of_the_specification) {
    const Tables tables = Tables::load_embedded().value();
    EXPECT_EQ(units::in_grams(tables.mass("spray_min_body_mass").value), 200);
    EXPECT_EQ(units::in_grams(tables.mass("bedding_min_body_mass").value), 160);
    EXPECT_EQ(units::in_days(tables.time("weight_valid_for").value), 60);
    EXPECT_EQ(units::in_days(tables.time("min_interval").value), 3);
    EXPECT_EQ(units::as_number(tables.number("max_applications").value), 3);
    EXPECT_EQ(units::in_milligrams_per_litre(tables.strength("strength_without_caution").value), 10.6);
    EXPECT_EQ(units::in_days(tables.time("discard_unpreserved").value), 14);
    EXPECT_EQ(units::in_days(tables.time("discard_preserved").value), 35);
    EXPECT_EQ(units::as_fraction(tables.part("measuring_error").value), 0.03);
    EXPECT_EQ(units::in_milligrams_per_litre(tables.strength("highest_spray_strength").value), 250);
    EXPECT_EQ(units::in_milligrams_per_kilogram(tables.dose("injected_dose").value), 0.2);
    EXPECT_EQ(units::in_days(tables.time("spray_after_injection").value), 14);
    EXPECT_EQ(units::in_celsius(tables.temperature("soak_temperature").low), 28);
    EXPECT_EQ(units::in_celsius(tables.temperature("soak_temperature").high), 30);
}

}  // namespace
}  // namespace mitefall::evidence
