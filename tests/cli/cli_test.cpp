#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

#include "../formats/schemas.h"
#include "cli/app.h"
#include "web/work.h"

namespace mitefall::cli {
namespace {

struct Answer {
    int code = 0;
    std::string out;
    std::string err;
};

/// Runs commands in process, on a collection file of its own, on one fixed day.
class Terminal : public testing::Test {
  protected:
    void SetUp() override {
        folder_ = std::filesystem::temp_directory_path() / ("mitefall-cli-" + std::to_string(getpid()));
        std::filesystem::create_directories(folder_);
        file_ = folder_ / "c.mitefall";
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }

    Answer run(std::vector<std::string> arguments) {
        std::ostringstream out;
        std::ostringstream err;
        Surroundings surroundings{out,
                                  err,
                                  {units::parse_day("2026-06-15").value(),
                                   "2026-06-15T21:00:00." + std::to_string(100000 + ++instant_) + "Z"},
                                  file_.string(),
                                  false};
        const int code = cli::run(std::move(arguments), surroundings);
        return {code, out.str(), err.str()};
    }

    void expect_done(const std::vector<std::string>& arguments) {
        const Answer answer = run(arguments);
        EXPECT_EQ(answer.code, 0) << arguments.front() << ": " << answer.err;
    }

    /// Two tubs, two snakes, mites on one.
    void make_collection() {
        expect_done({"new"});
        expect_done(
            {"record", "room", "den", "--temperature", "25 C", "--floor-cm2", "90000", "--on", "2026-01-05"});
        for (const char* const tub : {"t-1", "t-2"}) {
            expect_done({"record", "enclosure", tub, "--room", "den", "--temperature", "29 C", "--humidity",
                         "65", "--floor-cm2", "2500", "--on", "2026-01-05"});
        }
        expect_done({"record", "arrival", "ivy", "--kind", "ball python", "--enclosure", "t-1", "--on",
                     "2026-01-10"});
        expect_done({"record", "arrival", "moss", "--kind", "corn snake", "--enclosure", "t-2", "--on",
                     "2026-01-10"});
        expect_done({"record", "weight", "ivy", "1.4 kg"});
        expect_done({"record", "weight", "moss", "620 g"});
        expect_done({"record", "sighting", "t-1", "2-10"});
    }

    std::filesystem::path folder_;
    std::filesystem::path file_;
    int instant_ = 0;
};

TEST_F(Terminal, records_of_a_collection_must_begin_with_places_of_its_own_time) {
    expect_done({"new"});
    expect_done({"record", "room", "den", "--temperature", "25 C", "--floor-cm2", "90000"});
    const Answer early = run({"record", "enclosure", "t-1", "--room", "den", "--temperature", "29 C",
                              "--floor-cm2", "2500", "--on", "2026-01-01"});
    EXPECT_EQ(early.code, 6) << early.err;  // the room was not there yet: it contradicts what is on record
}

TEST_F(Terminal, unrounded_amounts_are_one_option_away_wherever_amounts_to_mix_are_shown) {
    make_collection();
    run({"plan", "--draws", "8", "--adopt", "recommended"});
    const std::vector<std::vector<std::string>> commands{
        {"plan", "--draws", "8"},
        {"shopping"},
        {"mix", "1 L", "--target", "10 mg/L", "--stock-is", "plain"},
        {"batch", "make", "b-1", "1 L", "--target", "10 mg/L", "--stock-is", "plain"}};
    for (std::vector<std::string> arguments : commands) {
        if (arguments.front() != "batch") {
            EXPECT_EQ(run(arguments).out.find("Unrounded"), std::string::npos) << arguments.front();
        }
        arguments.emplace_back("--exact");
        const Answer answer = run(arguments);
        EXPECT_EQ(answer.code, 0) << answer.err;
        EXPECT_NE(answer.out.find("Unrounded: "), std::string::npos) << answer.out;
    }
}

// 200 mg/L is above everything published, and nobody put on record that they read what it does.
TEST_F(Terminal, a_plan_at_a_strength_not_acknowledged_begins_with_what_is_refused) {
    make_collection();
    const Answer plan = run({"plan", "--draws", "8", "--strength", "200 mg/L"});
    ASSERT_EQ(plan.code, 0) << plan.err;
    const auto refused = plan.out.find("permits none of this");
    ASSERT_NE(refused, std::string::npos) << plan.out;
    EXPECT_LT(refused, plan.out.find("RECOMMENDED"));
    EXPECT_LT(plan.out.find("What to do: "), plan.out.find("RECOMMENDED"));
    EXPECT_EQ(plan.out.find("kept damp"), std::string::npos) << plan.out;
}

TEST_F(Terminal, the_adopted_course_is_answered_in_full) {
    make_collection();
    EXPECT_NE(run({"course"}).code, 0) << "there is none yet";
    expect_done({"plan", "--draws", "8", "--adopt", "recommended"});
    const Answer course = run({"course"});
    ASSERT_EQ(course.code, 0) << course.err;
    for (const char* const part :
         {"Scope: ", "Strength of the spray: 10 mg/L", "\"never\" or \"ask a veterinarian\" wins"})
        EXPECT_NE(course.out.find(part), std::string::npos) << course.out;
}

TEST_F(Terminal, every_json_answer_fits_its_schema) {
    make_collection();
    const std::vector<std::pair<std::vector<std::string>, std::string>> rows{
        {{"show"}, "collection"},
        {{"journal"}, "journal"},
        {{"record", "weight", "ivy", "1.41 kg"}, "recorded"},
        {{"undo"}, "recorded"},
        {{"exposure"}, "exposure"},
        {{"origin", "--draws", "8"}, "origin"},
        {{"verdicts"}, "verdicts"},
        {{"mix", "1 L", "--target", "10 mg/L", "--stock-is", "plain"}, "mix"},
        {{"mix", "32 US fl oz", "--made-with", "8 US tsp", "--stock", "5 mg/mL"}, "mix"},
        {{"tonight", "--draws", "8"}, "tonight"},
        {{"mix", "100 mL", "--target", "10 mg/L", "--stock-is", "plain", "--exact"}, "mix"},
        {{"batch", "make", "b-1", "1 L", "--target", "10 mg/L", "--stock-is", "plain"}, "recorded"},
        {{"batch", "list"}, "batches"},
        {{"batch", "label", "b-1", "--paper", "letter", "--out", (folder_ / "b.html").string()}, "label"},
        {{"batch", "discard", "b-1", "--how", "pharmacy"}, "recorded"},
        {{"show"}, "collection"},
        {{"journal"}, "journal"},
        {{"verdicts", "--all", "--animal", "ivy"}, "verdicts"},
        {{"matters", "--draws", "8"}, "matters"},
        {{"what-helps", "--draws", "8"}, "what-helps"},
        {{"emptied", "t-1", "--draws", "8", "--horizon", "14"}, "emptied"},
        {{"plan", "--draws", "8", "--course"}, "plan"},
        {{"plan", "--draws", "8", "--adopt", "recommended"}, "plan"},
        {{"course"}, "adopted-course"},
        {{"why-days", "--draws", "8"}, "why-days"},
        {{"procedure", "--draws", "8"}, "procedure"},
        {{"journal"}, "journal"},
        {{"matters", "--draws", "64"}, "matters"},
        {{"shopping", "--bottle", "200 mL", "--package", "50 mL=18.90 EUR"}, "shopping"},
        {{"today"}, "worklist"},
        {{"done", "2026-06-15/animal/ivy", "--draws", "8"}, "rescore"},
        {{"skip", "2026-06-15/animal/moss", "--because", "not tonight", "--no-score"}, "ticked"},
        {{"take-back", "2026-06-15/animal/moss"}, "ticked"},
        {{"rescore", "--draws", "8"}, "rescore"},
        {{"forecast", std::string(MITEFALL_ROOT) + "/docs/examples/case-three-rounds.json", "--draws", "8"},
         "forecast"},
        {{"forecast", std::string(MITEFALL_ROOT) + "/docs/examples/case-known-mites.json", "--draws", "8",
          "--course"},
         "forecast"},
        {{"forecast", std::string(MITEFALL_ROOT) + "/docs/examples/case-known-mites.json", "--engine",
          "simulator", "--runs", "200"},
         "simulation"},
        {{"parameters", "--draws", "8", "--with-draws"}, "parameters"},
        {{"evidence"}, "evidence"},
        {{"today", "--today", "2026-06-18"}, "worklist"},
        {{"late", "--draws", "8", "--today", "2026-06-18"}, "late"},
        {{"catch-up", "today", "--today", "2026-06-18"}, "recorded"},
        {{"late", "--draws", "8", "--today", "2026-06-18"}, "error"},
        {{"done", "2026-06-25/check/t-1", "--found", "none", "--no-score", "--today", "2026-06-25"},
         "ticked"},
        {{"retell", "--out", (folder_ / "r.case").string()}, "retell"},
        {{"retell", "--out", (folder_ / "r.case").string()}, "error"},
        {{"retell", "--out", (folder_ / "s.case").string(), "--first-day", "1 May"}, "error"},
        {{"done", "no/such/task"}, "error"},
    };
    for (auto [arguments, schema] : rows) {
        arguments.emplace_back("--json");
        const Answer answer = run(arguments);
        EXPECT_EQ(answer.code == 0, schema != "error") << arguments.front() << ": " << answer.err;
        EXPECT_EQ(formats::faults_of(answer.out, schema), "") << arguments.front();
    }
}

TEST_F(Terminal, late_work_is_said_first_with_what_to_type) {
    make_collection();
    expect_done({"plan", "--draws", "8", "--adopt", "recommended"});
    expect_done({"record", "water", "t-2", "out"});
    const Answer today = run({"today", "--today", "2026-06-19"});
    const auto at = [&](const char* text) {
        const auto found = today.out.find(text);
        EXPECT_NE(found, std::string::npos) << text << " in " << today.out;
        return found;
    };
    EXPECT_LT(at("t-2: no water dish since Mon 15 Jun, 4 days"), at("Round 1 of"));
    EXPECT_LT(at("Round 1 of"), at("Work for"));
    at("\"catch-up today\"");
    const Answer late = run({"late", "--draws", "8", "--today", "2026-06-19"});
    EXPECT_NE(late.out.find("If it is done today"), std::string::npos) << late.out << late.err;
    expect_done({"catch-up", "today", "--today", "2026-06-19"});
    EXPECT_EQ(run({"today", "--today", "2026-06-19"}).out.find("Round 1 of"), std::string::npos);
    EXPECT_EQ(run({"catch-up", "today", "--today", "2026-06-19"}).code, 4);
}

TEST_F(Terminal, a_check_is_answered_and_the_refusal_says_what_to_type) {
    make_collection();
    expect_done({"plan", "--draws", "8", "--adopt", "recommended"});
    const std::string check = "2026-06-22/check/t-1";
    const Answer bare = run({"done", check, "--no-score", "--today", "2026-06-22"});
    EXPECT_EQ(bare.code, 3);
    EXPECT_NE(bare.err.find("done " + check + " --found none"), std::string::npos) << bare.err;
    expect_done(
        {"done", check, "--found", "2-10", "--where", "in-water", "--no-score", "--today", "2026-06-22"});
    const Answer journal = run({"journal", "--json"});
    const auto entries = formats::Json::parse(journal.out)["result"]["entries"];
    EXPECT_EQ(entries[entries.size() - 2]["kind"], "checked");
    EXPECT_EQ(entries[entries.size() - 2]["fact"]["where"], "in-water");
}

// docs/exit-codes.md publishes these; a code never changes its meaning.
TEST_F(Terminal, exit_codes_are_those_published) {
    EXPECT_EQ(run({"--version"}).code, 0);
    EXPECT_EQ(run({"--help"}).code, 0);
    EXPECT_EQ(run({"no-such-command"}).code, 2);
    EXPECT_EQ(run({"record", "weight"}).code, 2);
    EXPECT_EQ(run({"show"}).code, 4);
    make_collection();
    EXPECT_EQ(run({"new"}).code, 5);
    EXPECT_EQ(run({"record", "weight", "ivy", "-3 kg"}).code, 3);
    EXPECT_EQ(run({"record", "weight", "nobody", "1 kg"}).code, 4);
    EXPECT_EQ(run({"today"}).code, 4);
    EXPECT_EQ(run({"mix", "1 L", "--target", "10 %", "--stock-is", "plain"}).code, 3);
    std::ofstream(folder_ / "torn.mitefall") << "this is no collection";
    EXPECT_EQ(run({"show", "--file", (folder_ / "torn.mitefall").string()}).code, 9);
}

TEST_F(Terminal, errors_say_what_value_and_remedy_on_standard_error_only) {
    make_collection();
    const Answer answer = run({"record", "weight", "ivy", "1400"});
    EXPECT_EQ(answer.out, "");
    EXPECT_NE(answer.err.find("1400"), std::string::npos);
    EXPECT_NE(answer.err.find("What to do:"), std::string::npos);
}

TEST_F(Terminal, a_refused_fact_leaves_the_journal_as_it_was) {
    make_collection();
    const std::string before = run({"journal"}).out;
    for (const std::vector<std::string>& bad : std::vector<std::vector<std::string>>{
             {"record", "weight", "ivy", "900 kg"},
             {"record", "move", "ivy", "--to", "nowhere"},
             {"record", "arrival", "ivy", "--enclosure", "t-1"},
             {"record", "sighting", "t-1", "lots"},
             {"record", "weight", "ivy", "1 kg", "--on", "2031-01-01"},
             {"record", "room", "Bad Name", "--temperature", "25 C", "--floor-cm2", "1"},
             {"withdraw", "999"}}) {
        EXPECT_NE(run(bad).code, 0) << bad[1];
    }
    EXPECT_EQ(run({"journal"}).out, before);
}

TEST_F(Terminal, ticking_writes_the_record_and_undo_takes_all_of_it_back) {
    make_collection();
    expect_done({"plan", "--draws", "8", "--adopt", "recommended"});
    const std::string before = run({"today"}).out;
    expect_done({"done", "2026-06-15/animal/ivy", "--no-score"});
    const std::string ticked = run({"today"}).out;
    EXPECT_NE(ticked.find("[x]"), std::string::npos);
    expect_done({"undo"});
    EXPECT_EQ(run({"today"}).out, before);
}

TEST_F(Terminal, done_twice_is_done_once_and_taking_back_has_a_name_of_its_own) {
    make_collection();
    expect_done({"plan", "--draws", "8", "--adopt", "recommended"});
    const std::string before = run({"today"}).out;
    const std::string task = "2026-06-15/animal/ivy";
    const auto result = [&](std::vector<std::string> words) {
        words.emplace_back("--json");
        return nlohmann::json::parse(run(std::move(words)).out)["result"];
    };
    const auto first = result({"done", task, "--no-score"});
    const std::string journal = run({"journal"}).out;
    const Answer second = run({"done", task, "--no-score"});
    EXPECT_EQ(second.code, 0) << "what was asked for is so";
    EXPECT_NE(second.out.find("Done already"), std::string::npos) << second.out;
    EXPECT_NE(second.out.find(first["entries"].back().dump()), std::string::npos) << "by which entry";
    EXPECT_EQ(run({"journal"}).out, journal) << "nothing is written";
    EXPECT_EQ(run({"skip", task, "--because", "x", "--no-score"}).code, 6) << "done is not skipped";
    EXPECT_EQ(run({"take-back", task, "--entry", "1"}).code, 4) << "another entry than its mark";
    EXPECT_EQ(result({"take-back", task})["entries"], first["entries"]) << "all the tick wrote";
    EXPECT_EQ(run({"today"}).out, before);
    EXPECT_EQ(run({"take-back", task}).code, 4) << "there is nothing to take back";
    EXPECT_TRUE(result({"take-back", task, "--entry", first["entries"].back().dump()})["already"]);
}

TEST_F(Terminal, a_correction_is_put_right_by_another_and_never_undone_into_nothing) {
    make_collection();
    const Answer journal = run({"journal", "--json"});
    const auto entries = nlohmann::json::parse(journal.out)["result"]["entries"];
    const std::string weighing =
        entries.at(5)["id"].dump();  // ivy's 1.4 kg: room, two tubs, two arrivals before it
    ASSERT_EQ(entries.at(5)["kind"], "weighed");
    expect_done({"record", "weight", "ivy", "1.3 kg", "--corrects", weighing});
    EXPECT_EQ(run({"undo"}).code, 6);
    EXPECT_NE(run({"show"}).out.find("1.3 kg"), std::string::npos);
}

TEST_F(Terminal, the_journal_lists_every_entry) {
    make_collection();
    const std::string text = run({"journal"}).out;
    EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 9);  // the heading and eight facts
}

TEST_F(Terminal, a_strong_batch_needs_the_caution_to_have_been_read) {
    make_collection();
    const std::vector<std::string> strong{"batch",    "make",     "b-1",        "1 L",
                                          "--target", "200 mg/L", "--stock-is", "plain"};
    const Answer refused = run(strong);
    EXPECT_EQ(refused.code, 7) << refused.err;  // docs/exit-codes.md: a safety rule forbids it
    EXPECT_NE(refused.err.find("20 times"), std::string::npos);
    EXPECT_EQ(run({"record", "acknowledgement", "200 mg/L", "--animal", "nobody"}).code, 4);
    expect_done({"record", "acknowledgement", "200 mg/L", "--animal", "ivy"});
    expect_done(strong);
    EXPECT_EQ(run(strong).code, 6) << "the name is taken";
    EXPECT_EQ(run({"batch", "label", "no-such"}).code, 4);
    EXPECT_EQ(run({"batch", "discard", "no-such"}).code, 4);
    expect_done({"batch", "discard", "b-1"});
    EXPECT_EQ(run({"batch", "discard", "b-1"}).code, 6);
}

// By ingredient and form: only a plain solution of ivermectin alone is measured, and nobody is taken to have
// one.
TEST_F(Terminal, the_bench_asks_what_is_in_the_bottle) {
    make_collection();
    for (const std::vector<std::string>& question :
         {std::vector<std::string>{"mix", "1 L", "--target", "10 mg/L"},
          std::vector<std::string>{"batch", "make", "b-1", "1 L", "--target", "10 mg/L"}}) {
        const Answer asked = run(question);
        EXPECT_EQ(asked.code, 3);
        EXPECT_NE(asked.err.find("what is in the bottle?"), std::string::npos) << asked.err;
        for (const char* const form : {"pour-on", "paste", "combination"}) {
            std::vector<std::string> told = question;
            told.insert(told.end(), {"--stock-is", form});
            const Answer refused = run(told);
            EXPECT_EQ(refused.code, 7) << form;
            EXPECT_NE(refused.err.find("ask a veterinarian"), std::string::npos) << refused.err;
        }
    }
    EXPECT_EQ(run({"mix", "1 L", "--target", "10 mg/L", "--stock-is", "blue"}).code, 3);
    EXPECT_EQ(run({"mix", "1 L", "--made-with", "1 mL"}).code, 0)
        << "how strong it is may be asked of anything";
    EXPECT_EQ(run({"mix", "1 L", "--made-with", "1 mL", "--stock-is", "pour-on"}).code, 7);
}

// rules.toml, highest_spray_strength: 250 mg/L.
TEST_F(Terminal, nothing_beyond_any_known_practice_is_mixed) {
    EXPECT_EQ(run({"mix", "1 L", "--target", "250 mg/L", "--stock-is", "plain"}).code, 0);
    const Answer refused = run({"mix", "1 L", "--target", "251 mg/L", "--stock-is", "plain"});
    EXPECT_EQ(refused.code, 7);
    EXPECT_NE(refused.err.find("beyond any practice known"), std::string::npos) << refused.err;
}

TEST_F(Terminal, the_bench_asks_about_what_is_ambiguous) {
    for (const char* const stock : {"1 %", "5 ppm", "1:100", "10 mg", "1.87 % w/w", "18.7 mg/g", "10"}) {
        const Answer answer =
            run({"mix", "1 L", "--target", "10 mg/L", "--stock-is", "plain", "--stock", stock});
        EXPECT_EQ(answer.code, 3) << stock;
        EXPECT_NE(answer.err.find("What to do:"), std::string::npos) << stock << answer.err;
    }
    for (const char* const volume : {"1 gal", "1 quart", "2 cups", "8 tsp", "8 teaspoons"})
        EXPECT_EQ(run({"mix", volume, "--target", "10 mg/L", "--stock-is", "plain"}).code, 3) << volume;
    EXPECT_EQ(run({"mix", "2 L", "--target", "10 mg/L", "--stock-is", "plain", "--bottle", "1 L"}).code, 3);
    EXPECT_EQ(
        run({"mix", "1 L", "--target", "10 mg/L", "--stock-is", "plain", "--expires", "2026-01-01"}).code, 3);
}

TEST_F(Terminal, spoons_are_spoons_and_both_readings_of_a_recipe_are_told) {
    const std::string text = run({"mix", "32 US fl oz", "--made-with", "8 US tsp", "--stock", "5 mg/mL"}).out;
    EXPECT_NE(text.find("208 mg/L"), std::string::npos) << text;
    EXPECT_NE(text.find("21 times"), std::string::npos) << text;  // 208.3 / 10
    EXPECT_NE(text.find("200 mg/L"), std::string::npos) << text;  // 39.43 mL in 946.35 + 39.43 mL
    EXPECT_EQ(text.find("39.4"), std::string::npos) << text;
}

// A quart is a jug filled to its line (rules.toml, filled_vessel_error: 5 %), not half a quart to one and a
// half.
TEST_F(Terminal, one_quart_is_a_quart_and_one_litre_a_litre) {
    for (const char* const whole : {"1 US quart", "32 US fl oz", "1 L", "1000 mL"}) {
        const Answer answer = run({"mix", whole, "--made-with", "1.00 mL", "--json"});
        ASSERT_EQ(answer.code, 0) << answer.err;
        const auto range = nlohmann::json::parse(answer.out)["result"]["resulting"];
        EXPECT_GT(range["low_mg_per_l"], 0.94 * range["nominal_mg_per_l"].get<double>()) << whole;
        EXPECT_LT(range["high_mg_per_l"], 1.06 * range["nominal_mg_per_l"].get<double>()) << whole;
    }
}

// What was made is judged once, by the strongest it may be: no "without a veterinarian" beside an "allowed".
TEST_F(Terminal, the_bench_says_one_thing_of_one_mix) {
    make_collection();
    for (const auto& [stock, above] : {std::pair{"1 mL", true}, {"0.900 mL", false}, {"20 mL", true}}) {
        const Answer json = run({"mix", "1 L", "--made-with", stock, "--json"});
        ASSERT_EQ(json.code, 0) << json.err;
        EXPECT_EQ(formats::faults_of(json.out, "mix"), "");
        const auto sheet = nlohmann::json::parse(json.out)["result"];
        EXPECT_EQ(sheet["comparison"]["standing"] == "above", above) << stock;
        for (const auto& animal : sheet["animals"])
            EXPECT_EQ(animal["ruling"] == "allowed", !above) << stock << animal;
        const std::string text = run({"mix", "1 L", "--made-with", stock}).out;
        EXPECT_EQ(text.find("CAUTION") != std::string::npos, above) << text;
        EXPECT_EQ(text.find("  allowed\n") != std::string::npos, !above) << text;
    }
}

TEST_F(Terminal, a_strength_that_may_not_be_given_shows_no_steps_until_its_stop_is_read) {
    make_collection();
    std::vector<std::string> strong{"mix", "1 L", "--target", "200 mg/L", "--stock-is", "plain", "--exact"};
    const Answer stopped = run(strong);
    ASSERT_EQ(stopped.code, 0) << stopped.err;
    EXPECT_EQ(stopped.out.find("CAUTION"), 0U) << "the gravest first: " << stopped.out;
    for (const char* const step : {"Stock (", "of stock", "Fill the bottle", "Unrounded", "20 mL"})
        EXPECT_EQ(stopped.out.find(step), std::string::npos) << stopped.out;
    strong.emplace_back("--json");
    const Answer json = run(strong);
    EXPECT_EQ(formats::faults_of(json.out, "mix"), "");
    const auto held = nlohmann::json::parse(json.out)["result"];
    EXPECT_TRUE(held["steps_held_back"]);
    for (const char* const part : {"measurement", "pre_dilution", "cannot_measure"})
        EXPECT_TRUE(held[part].is_null()) << part;
    EXPECT_TRUE(held["recipe"]["stock_ml"].is_null());
    EXPECT_FALSE(held["animals"].empty()) << "what it would leave on each animal is part of the stop";
    strong.back() = "--stop-read";
    const Answer read = run(strong);
    EXPECT_EQ(read.out.find("CAUTION"), 0U) << "it still stands above: " << read.out;
    EXPECT_NE(read.out.find("Fill the bottle"), std::string::npos) << read.out;
    strong.pop_back();
    expect_done({"record", "acknowledgement", "200 mg/L", "--animal", "ivy"});
    EXPECT_NE(run(strong).out.find("Fill the bottle"), std::string::npos) << "read, and on record";
    std::filesystem::remove(file_);
    EXPECT_EQ(run(strong).out.find("Fill the bottle"), std::string::npos) << "without a collection too";
}

TEST_F(Terminal, the_demo_ends_with_three_lines) {
    const Answer demo = run({"demo"});
    ASSERT_EQ(demo.code, 0) << demo.err;
    std::istringstream text(demo.out);
    std::vector<std::string> lines;
    for (std::string line; std::getline(text, line);) lines.push_back(line);
    ASSERT_GT(lines.size(), 3U);
    EXPECT_TRUE(lines.end()[-3].starts_with("Shown: ")) << lines.end()[-3];
    EXPECT_TRUE(lines.end()[-2].starts_with("Browser: mitefall serve")) << lines.end()[-2];
    EXPECT_NE(lines.end()[-2].find("http://127.0.0.1:"), std::string::npos);
    EXPECT_TRUE(lines.end()[-1].starts_with("Next: mitefall ")) << lines.end()[-1];
    // Grouped: each enclosure with work is named once above its tasks, in working order.
    const Answer list = run({"plan", "--draws", "8", "--adopt", "recommended"});
    ASSERT_EQ(list.code, 0) << list.err;
    const std::string today = run({"today"}).out;
    const auto heading = today.find("\n    Tub A 01: Ada\n");
    ASSERT_NE(heading, std::string::npos) << today;
    EXPECT_EQ(today.find("\n    Tub A 01: Ada\n", heading + 1), std::string::npos) << "once";
    EXPECT_LT(today.find("Read this first"), today.find("Work for")) << "the gravest first";
    EXPECT_LT(run({"today"}).out.size(), run({"today", "--details"}).out.size());
}

TEST_F(Terminal, a_treatment_of_a_room_is_not_recorded_for_an_enclosure) {
    make_collection();
    const Answer room = run({"record", "treatment", "t-1", "treat-room"});
    EXPECT_EQ(room.code, 3);
    EXPECT_NE(room.err.find("record room-treatment"), std::string::npos);
    EXPECT_EQ(run({"record", "treatment", "t-1", "spray-animal", "--strength", "10 mg/L"}).code, 3);
    expect_done({"record", "treatment", "t-1", "spray-animal", "--strength", "10 mg/L", "--animals", "ivy"});
}

TEST_F(Terminal, same_seed_same_plan) {
    make_collection();
    EXPECT_EQ(run({"plan", "--draws", "16", "--seed", "5", "--json"}).out,
              run({"plan", "--draws", "16", "--seed", "5", "--json"}).out);
}

/// As the page asks for a plan: with no wish at all, or with these.
formats::Json plan_in_browser(const std::string& file, const formats::Json& wishes) {
    const auto knowledge = service::Knowledge::load().value();
    const service::Now now{units::parse_day("2026-06-15").value(), "2026-06-15T22:00:00Z"};
    web::Desk desk(file, service::Keeper::open(file, knowledge).value(), knowledge, [&] { return now; });
    const web::Jobs none(
        [](const web::Question&, const auto&) -> base::Result<web::Outcome> { return web::Outcome{}; },
        [](const web::Job&) {});
    const web::Question asked{"plan", wishes, desk.last_entry().value(), now.today};
    return web::work_off(asked, desk, none, {}).value().result;
}

TEST_F(Terminal, recommends_what_the_browser_recommends) {
    make_collection();
    const auto here = [&](std::vector<std::string> wishes) {
        wishes.insert(wishes.begin(), {"--json", "plan"});
        return formats::Json::parse(run(wishes).out).at("result");
    };
    EXPECT_EQ(here({}), plan_in_browser(file_.string(), formats::Json::object()));
    EXPECT_EQ(here({"--days", "sat,sun", "--prefer", "work", "--horizon", "60", "--target", "90"}),
              plan_in_browser(
                  file_.string(),
                  {{"days", {"sat", "sun"}}, {"prefer", "work"}, {"horizon_days", 60}, {"target", 0.9}}));
}

TEST_F(Terminal, asks_whether_an_animal_has_shed_and_takes_each_answer) {
    make_collection();
    expect_done({"record", "shed", "ivy", "cloudy", "--on", "2026-06-04"});
    EXPECT_NE(run({"today"}).out.find("Has it shed?"), std::string::npos);
    expect_done({"record", "shed", "ivy", "cloudy"});
    EXPECT_EQ(run({"today"}).out.find("Has it shed?"), std::string::npos) << "still cloudy: not again today";
    expect_done({"undo"});
    expect_done({"record", "shed", "ivy", "clear"});
    EXPECT_EQ(run({"today"}).out.find("Has it shed?"), std::string::npos);
    expect_done({"undo"});
    EXPECT_NE(run({"today"}).out.find("Has it shed?"), std::string::npos);
    expect_done({"record", "shed", "ivy", "shed", "--on", "2026-06-13"});
    EXPECT_EQ(run({"today"}).out.find("Has it shed?"), std::string::npos);
}

TEST_F(Terminal, units_shown_are_those_asked_for) {
    make_collection();
    EXPECT_NE(run({"show"}).out.find("1.4 kg"), std::string::npos);
    EXPECT_NE(run({"show", "--units", "us"}).out.find("3.09 lb"),
              std::string::npos);  // 1.4 kg / 0.45359237 kg per lb (NIST HB 44)
}

}  // namespace
}  // namespace mitefall::cli
