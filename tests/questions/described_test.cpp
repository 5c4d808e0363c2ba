#include "questions/described.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

#include "questions/clear.h"
#include "questions/plan.h"

// What is said of a question outside the program is what the program understands.
namespace mitefall::questions {
namespace {

/// The file as it is; with MITEFALL_WRITE set it is written first.
std::string kept(const std::string& name, const std::string& meant) {
    const std::string path = std::string(MITEFALL_ROOT "/docs/") + name;
    if (std::getenv("MITEFALL_WRITE") != nullptr) std::ofstream(path) << meant;
    std::ostringstream text;
    text << std::ifstream(path).rdbuf();
    return text.str();
}

std::vector<Described> all() {
    std::vector<Described> list = jobs();
    for (Described& one : others()) list.push_back(std::move(one));
    return list;
}

TEST(Described, the_page_says_what_is_understood) { EXPECT_EQ(kept("questions.md", page()), page()); }

TEST(Described, the_schema_of_a_job_says_what_is_understood) {
    const std::string meant = job_schema().dump(2) + "\n";
    EXPECT_EQ(kept("schemas/ask.schema.json", meant), meant);
}

TEST(Described, an_option_has_one_name_in_each_face_and_a_default_within_its_limits) {
    for (const Described& question : all()) {
        std::set<std::string> names;
        for (const Saying& option : question.options) {
            EXPECT_FALSE(option.names.key.empty() && option.names.typed.empty()) << question.name;
            for (const auto name : {option.names.key, option.names.typed})
                EXPECT_TRUE(name.empty() || names.emplace(name).second) << question.name << " " << name;
            EXPECT_FALSE(option.help.empty()) << question.name;
            if (!option.limits) continue;
            const auto* const number = std::get_if<double>(&option.otherwise);
            const double usual =
                number != nullptr ? *number : static_cast<double>(std::get<std::uint64_t>(option.otherwise));
            EXPECT_GE(usual, option.limits->low) << option.names.typed;
            EXPECT_LE(usual, option.limits->high) << option.names.typed;
        }
    }
}

TEST(Described, every_choice_sets_what_it_says) {
    for (const auto& [text, method] : values_of<records::CheckMethod>()) {
        service::ClearanceOptions options;
        for (const auto& option : clear().options) {
            if (option.names.key == "by") {
                ASSERT_TRUE(option.set(options, text));
            }
        }
        EXPECT_EQ(options.method, method) << text;
        EXPECT_EQ(records::to_text(options.method), text);
    }
    EXPECT_EQ(values_of<records::CheckMethod>().size(), 4U);
}

TEST(Described, no_day_of_the_week_means_every_day) {
    service::PlanOptions options;
    const auto days = days_of_the_week();
    ASSERT_TRUE(days.set(options, std::vector<std::string>()));
    EXPECT_EQ(options.limits.free_days, service::PlanOptions{}.limits.free_days);
    ASSERT_TRUE(days.set(options, std::vector<std::string>{"sat", "sun"}));
    EXPECT_EQ(options.limits.free_days, std::bitset<7>(0b1000001));
}

}  // namespace
}  // namespace mitefall::questions
