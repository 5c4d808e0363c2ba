#include "words/words.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <regex>
#include <set>

#include "clearance/after.h"
#include "exposure/paths.h"
#include "plan/course.h"
#include "plan/told.h"
#include "records/method.h"
#include "safety/rules.h"
#include "service/asked.h"
#include "service/changes.h"
#include "service/emptied.h"
#include "worklist/work.h"

namespace mitefall::words {
namespace {

using safety::Role;
using safety::RuleRow;
namespace says = safety::says;

/// The names between braces: "{name:how|otherwise}".
std::set<std::string> slots_of(std::string_view text) {
    static const std::regex slot(R"(\{([a-z_]+)(:[a-z ]+)?(\|[^}]*)?\})");
    std::set<std::string> names;
    const std::string all(text);
    for (std::sregex_iterator at(all.begin(), all.end(), slot), end; at != end; ++at) names.insert((*at)[1]);
    EXPECT_EQ(std::count(all.begin(), all.end(), '{'),
              std::distance(std::sregex_iterator(all.begin(), all.end(), slot), std::sregex_iterator()))
        << all;
    return names;
}

/// Everything that is told: an id and the arguments it is given. What has a sentence for each method stands
/// once for each.
std::map<std::string, std::set<std::string>> everything_told() {
    std::map<std::string, std::set<std::string>> told;
    const auto add = [&](const std::string& id, const statement::Row& row) {
        EXPECT_TRUE(told.try_emplace(id, row.arguments.begin(), row.arguments.end()).second) << id;
    };
    for (const RuleRow& one : safety::all_rules()) add(std::string(one.row.id), one.row);
    for (const statement::Row& row : worklist::work::all()) {
        if (row.id != worklist::work::treat.id) add(std::string(row.id), row);
    }
    for (const auto& rows : {exposure::tells::all(), service::asked::all(), service::changes::all(),
                             service::emptied::all(), clearance::after::all()}) {
        for (const statement::Row& row : rows) add(std::string(row.id), row);
    }
    for (const statement::Row& row : plan::told::all()) {
        if (row.id != plan::told::reach.id) add(std::string(row.id), row);
    }
    for (const plan::Scope scope : {plan::Scope::chosen, plan::Scope::sighted, plan::Scope::sighted_rooms,
                                    plan::Scope::exposed, plan::Scope::everything})
        add("reach/" + std::string(plan::to_text(scope)), statement::Row{plan::told::reach.id, {}});
    for (const records::MethodRow& method : records::method_rows)
        add("treat/" + std::string(method.key), statement::row_of(worklist::work::treat));
    return told;
}

const Sentence* sentence_with(std::string_view id) {
    const auto& all = all_sentences(Language::english);
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Sentence& one) { return one.id == id; });
    return found == all.end() ? nullptr : &*found;
}

TEST(Words, everything_told_has_one_sentence_and_every_sentence_is_of_something_told) {
    const auto told = everything_told();
    for (const auto& [id, arguments] : told) EXPECT_NE(sentence_with(id), nullptr) << id;
    std::set<std::string_view> said;
    for (const Sentence& one : all_sentences(Language::english)) {
        EXPECT_TRUE(said.insert(one.id).second) << one.id;
        EXPECT_TRUE(told.contains(std::string(one.id))) << one.id;
    }
}

TEST(Words, the_sentence_of_a_treatment_names_whom_or_where_it_is_done) {
    for (const records::MethodRow& method : records::method_rows) {
        const Sentence* const sentence = sentence_with("treat/" + std::string(method.key));
        ASSERT_NE(sentence, nullptr) << method.key;
        const std::set<std::string> used = slots_of(sentence->text);
        const bool concerns_animals =
            method.target == records::Target::animal || method.meets == records::Meets::housed;
        EXPECT_EQ(used.contains("who"), concerns_animals) << method.key;
        EXPECT_EQ(used.contains("where"), method.target != records::Target::animal) << method.key;
    }
}

TEST(Words, a_sentence_uses_every_argument_it_is_given_and_no_other) {
    for (const auto& [id, given] : everything_told()) {
        const Sentence* const sentence = sentence_with(id);
        ASSERT_NE(sentence, nullptr) << id;
        const std::set<std::string> used = slots_of(sentence->text);
        if (!id.starts_with("treat/")) {
            EXPECT_EQ(used, given) << id;
        }
        EXPECT_TRUE(std::includes(given.begin(), given.end(), used.begin(), used.end())) << id;
    }
}

// What is said once for all must not name what is of one: the two together use nothing the whole does not.
TEST(Words, what_is_said_once_and_what_is_of_one_alone_share_no_argument) {
    for (const Sentence& one : all_sentences(Language::english)) {
        if (one.common.empty()) {
            EXPECT_TRUE(one.own.empty()) << one.id;
            continue;
        }
        const std::set<std::string> whole = slots_of(one.text);
        const std::set<std::string> common = slots_of(one.common);
        const std::set<std::string> own = slots_of(one.own);
        EXPECT_TRUE(std::includes(whole.begin(), whole.end(), common.begin(), common.end())) << one.id;
        EXPECT_TRUE(std::includes(whole.begin(), whole.end(), own.begin(), own.end())) << one.id;
        for (const std::string& name : own) EXPECT_FALSE(common.contains(name)) << one.id << " " << name;
    }
}

TEST(Words, amounts_are_said_with_their_units) {
    const auto light = says::too_light_to_spray(units::grams(95), units::grams(200));
    EXPECT_EQ(say(light.what), "it weighs 95 g; spray on the animal needs at least 200 g");
    EXPECT_EQ(say_shared(light.what).own, "95 g");
    EXPECT_EQ(say(says::dry_and_aired(units::hours_long(48), units::hours_long(24)).what),
              "Dry and aired for 48 hours (24 at least) before an animal returns");
    EXPECT_EQ(say(says::soak_depth_and_time(units::hours_long(0.5)).what).find("30 minutes at most") !=
                  std::string::npos,
              true);
    EXPECT_EQ(say(says::put_entry_right(1234)),
              "put entry 1234 right (record ... --corrects 1234) or withdraw it");
}

TEST(Words, many_names_are_said_as_the_first_three_and_their_number) {
    statement::Names names{{"a", "Anna"}, {"", ""}, {"c", "Carla"}, {"d", "Dora"}, {"e", "Elsa"}};
    EXPECT_EQ(say(says::move_to_another_room(names)),
              "move Anna, one without a name, Carla and 2 more to another room first and record it");
    EXPECT_EQ(statement::ids_in(says::move_to_another_room(names)),
              (std::vector<std::string>{"a", "c", "d", "e"}));
}

TEST(Words, what_is_not_named_has_other_words) {
    const units::Day day{units::Days(20523)};
    EXPECT_EQ(say(says::reacted("", day).what), "it reacted to a treatment before (noted 11 Mar 2026)");
    EXPECT_EQ(say(says::reacted("fipronil", day).what), "it reacted to fipronil before (noted 11 Mar 2026)");
}

TEST(Words, nothing_told_is_nothing_said_and_an_unknown_id_is_a_broken_contract) {
    EXPECT_EQ(say(statement::Statement{}), "");
    EXPECT_ANY_THROW(static_cast<void>(say(statement::Statement{"no such id", {}})));
}

// Text between quotes of somebody else is said as it is: braces in it are not read.
TEST(Words, what_a_keeper_wrote_is_never_read_as_a_sentence) {
    EXPECT_EQ(say(says::species_unknown("{kind} {").what), "the species \"{kind} {\" is not known here");
}

}  // namespace
}  // namespace mitefall::words
