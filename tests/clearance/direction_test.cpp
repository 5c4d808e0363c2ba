#include <gtest/gtest.h>

#include <cmath>

#include "clearance/next_check.h"
#include "clearance/release.h"
#include "scene.h"

// What every keeper would expect of one way of looking beside another, all else equal.
namespace mitefall::clearance {
namespace {

// For each draw this is a theorem where the mites at the start are Poisson: a survivor that also escapes one
// more check is no more likely than one that escapes the checks before.
TEST(Direction, more_clean_checks_never_lower_the_chance_of_any_draw) {
    const forecast::SightedStart seen{{sighted, 0, sighted, 0, true, 2, 10}};
    std::vector<double> days;
    std::vector<double> before(ensemble().draws.size(), -1e300);
    for (const double day : {3.0, 11.0, 18.0, 25.0}) {
        days.push_back(day);
        const Scenario scenario = checked(days);
        Standing known = standing(scenario, ensemble(), 28);
        known.start = seen;
        Enquiry enquiry(known, {}, 2);
        const Draws draws = enquiry.draws_at(scenario, 28).value();
        for (std::size_t i = 0; i < before.size(); ++i) {
            EXPECT_GE(draws.log_clear[i], before[i] - 1e-7) << "draw " << i << ", day " << day;
            before[i] = draws.log_clear[i];
        }
    }
}

TEST(Direction, a_clean_check_today_lowers_the_risk_by_every_method) {
    const double unchecked = risk_today(checked({14}), 21);
    for (const auto method :
         {CheckMethod::look_over, CheckMethod::soak, CheckMethod::wipe, CheckMethod::paper_trap}) {
        const Scenario also = with_events(checked({14}), {{21, scenario::clean_check(sighted, method)}});
        EXPECT_LT(risk_today(also, 21), unchecked) << records::to_text(method);
    }
}

TEST(Direction, longer_clean_watching_after_the_last_treatment_makes_surer) {
    double before = 1;
    std::vector<double> days;
    for (double day = last_treatment + 7; day <= 49; day += 7) {
        days.push_back(day);
        const double risk = risk_today(checked(days), day);
        EXPECT_LT(risk, before) << day;
        before = risk;
    }
}

TEST(Direction, poor_detection_makes_less_sure) {
    const Scenario scenario = checked({14, 21, 28});
    const auto& tables = fixtures::tables();
    const auto low = with_detection_at(ensemble(), tables, DetectionEnd::low);
    const auto high = with_detection_at(ensemble(), tables, DetectionEnd::high);
    EXPECT_EQ(low.draws.front().detection_light, 0.2);
    EXPECT_EQ(high.mode.detection_paper_trap, 0.4);
    EXPECT_GT(risk_today(scenario, 28, low), risk_today(scenario, 28));
    EXPECT_GT(risk_today(scenario, 28), risk_today(scenario, 28, high));
}

TEST(Direction, a_check_where_the_mites_were_seen_is_worth_most) {
    const Scenario scenario = checked({14});
    NextCheckRequest request;
    request.standing = standing(scenario, ensemble(), 21);
    for (const PlaceIndex place : {other, neighbour, sighted}) {
        for (const auto method : {CheckMethod::look_over, CheckMethod::paper_trap})
            request.candidates.push_back({place, place, method, 21});
    }
    const auto values = value_checks(request).value();
    ASSERT_EQ(values.size(), 6U);
    EXPECT_EQ(values.front().candidate.place, sighted);
    EXPECT_EQ(values.back().candidate.place, other);
    for (std::size_t i = 0; i < values.size(); ++i) {
        EXPECT_TRUE(i == 0 || values[i - 1].finds_if_left >= values[i].finds_if_left);
        EXPECT_GT(values[i].finds_if_left, 0);
        EXPECT_LT(values[i].if_clean.risk.mean, values[i].before.risk.mean);
    }
}

TEST(Direction, risk_of_a_place_is_part_of_that_of_the_collection) {
    const Scenario scenario = checked({14, 21});
    const Standing known = standing(scenario, ensemble(), 21);
    const std::vector<PlaceGroup> groups{{0}, {sighted}, {neighbour}, {other}};
    const auto answers = sure_of_groups(known, groups).value();
    const double all = sure_of_collection(known)->risk.mean;
    double sum = 0;
    for (const Sureness& answer : answers) {
        EXPECT_LE(answer.risk.mean, all);
        sum += answer.risk.mean;
    }
    EXPECT_GE(sum, all) << "mites left somewhere are left in at least one place";
    EXPECT_GT(answers[1].risk.mean, answers[3].risk.mean) << "where they were seen, and far from it";
}

TEST(Direction, places_of_one_group_share_their_answer) {
    Scenario scenario = checked({14, 21}, CheckMethod::look_over, {sighted});
    Standing known = standing(scenario, ensemble(), 21);
    known.start = forecast::KnownStart{{sighted, Stage::adult_feeding_1, 3}};
    const auto classes = network::lump(scenario);
    ASSERT_EQ(classes.class_of[neighbour], classes.class_of[other]);
    const auto answers = sure_of_groups(known, std::vector<PlaceGroup>{{neighbour}, {other}}).value();
    EXPECT_NEAR(answers[0].risk.mean, answers[1].risk.mean, 1e-9 * answers[1].risk.mean);
}

TEST(Outlook, names_the_first_round_that_reaches_a_level) {
    const Scenario scenario = checked({});
    const Standing known = standing(scenario, ensemble(), 14);
    const std::vector<double> levels{0.01, 0.5, 0.9999999};
    const auto outlook =
        look_ahead(known, {{sighted, neighbour, other}, CheckMethod::soak, 21, 7, 5}, levels, true).value();
    ASSERT_EQ(outlook.points.size(), 6U);
    EXPECT_EQ(outlook.checked[0].at_mean, 14) << "today";
    EXPECT_FALSE(outlook.checked[2].at_mean) << "not within the rounds";
    ASSERT_TRUE(outlook.checked[1].at_mean);
    for (std::size_t i = 0; i < outlook.points.size(); ++i) {
        const OutlookPoint& point = outlook.points[i];
        EXPECT_LE(point.checked.risk.mean, point.waited->risk.mean);
        EXPECT_EQ(point.checked.clear.mean >= 0.5, point.time >= *outlook.checked[1].at_mean);
        EXPECT_TRUE(i == 0 || point.all_clean <= outlook.points[i - 1].all_clean);
    }
}

TEST(Outlook, stops_when_told_to) {
    const Scenario scenario = checked({10});
    const Standing known = standing(scenario, ensemble(), 14);
    const std::vector<double> levels{0.95};
    int calls = 0;
    const auto cancelled = look_ahead(known, {{sighted}, CheckMethod::soak, 21, 7, 5}, levels, true,
                                      [&](double) { return ++calls < 3; });
    EXPECT_FALSE(cancelled);
    EXPECT_GE(calls, 3);
}

/// Days in quarantine until the chance alone would do, looked over every week.
std::optional<double> days_until(double level, const mites::Ensemble& draws, double least = 0) {
    using fixtures::room, fixtures::tub;
    Scenario scenario;
    scenario.places = {room("quarantine"), tub("tub", 0)};
    ReleaseRequest request;
    request.scenario = &scenario;
    request.ensemble = &draws;
    request.place = 1;
    request.least = least;
    request.rounds = {{1}, CheckMethod::look_over, 7, 7, 12};
    const std::vector<double> levels{level};
    return plan_release(request, levels)->no_sooner.front().at_mean;
}

TEST(Release, is_never_before_the_usual_minimum) {
    const auto by_chance = days_until(0.95, ensemble());
    ASSERT_TRUE(by_chance);
    EXPECT_LT(*by_chance, 60);
    EXPECT_GE(days_until(0.95, ensemble(), 60).value(), 60);
}

TEST(Release, poor_detection_keeps_the_animal_longer) {
    const auto& tables = fixtures::tables();
    const auto low = days_until(0.97, with_detection_at(ensemble(), tables, DetectionEnd::low));
    const auto high = days_until(0.97, with_detection_at(ensemble(), tables, DetectionEnd::high));
    ASSERT_TRUE(high);
    EXPECT_TRUE(!low || *low > *high);
}

}  // namespace
}  // namespace mitefall::clearance
