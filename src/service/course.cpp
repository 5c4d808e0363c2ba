#include "service/course.h"

#include <algorithm>

#include "clearance/outlook.h"
#include "service/adopted.h"
#include "service/course_to_come.h"
#include "worklist/worklist.h"

namespace mitefall::service {
namespace {

constexpr double week = 7;

std::vector<std::string> names_of(const scenario::Scenario& scenario) {
    std::vector<std::string> names;
    for (const scenario::Place& place : scenario.places) names.push_back(place.name);
    return names;
}

/// Counts daily; the days of the curve, which is not drawn yet.
std::optional<Course> count(const forecast::ForecastRequest& request, double day_zero, double to) {
    Course course;
    course.day_zero = day_zero;
    course.places = names_of(*request.scenario);
    course.clear_times = forecast::days_between(day_zero, to, week);
    auto counts = forecast::course_of_counts(request, forecast::days_between(day_zero, to, 1),
                                             forecast::draw_weights(request));
    if (!counts) return std::nullopt;
    course.counts = std::move(*counts);
    return course;
}

}  // namespace

base::Result<Course> course_of(const Situation& situation, const plan::Setting& setting,
                               const plan::Schedule& schedule, const PlanOptions& options) {
    const scenario::RecordedCase& known = setting.known;
    const auto believed = situation.believed({options.draws, options.seed}, options.progress);
    if (!believed) return base::fail(believed.error());
    const auto& [ensemble, belief] = **believed;
    const scenario::Scenario scenario = scenario_from_today(setting, schedule);
    forecast::ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble;
    request.start = &belief;
    request.from = known.from;
    request.tolerance = branching::for_show;
    request.progress = options.progress;
    const double today = known.time_of(setting.today);
    auto course = count(request, today, today + options.horizon_days);
    if (!course) return base::fail(cancelled());
    // The question of `clearance`, asked in its words: the curve begins with the chance that is told for
    // today.
    const clearance::Standing standing{&scenario, &ensemble, &belief, known.from, today, 0};
    const auto sure = clearance::sure_by_day(standing, course->clear_times, options.progress);
    if (!sure) return base::fail(cancelled());
    for (const clearance::Sureness& on_day : *sure) course->clear.push_back(on_day.clear);
    return std::move(*course);
}

base::Result<Course> course_on_record(const Situation& situation, const PlanOptions& options) {
    const auto setting = situation.setting_of_course();
    if (!setting) return base::fail(setting.error());
    const auto schedule = plan::fit(worklist::assignment_on_record(situation.collection()), *setting);
    return course_of(situation, *setting, schedule, options);
}

std::optional<Course> course_of(const formats::CaseFile& given, const std::function<bool(double)>& progress) {
    forecast::ForecastRequest request;
    request.scenario = &given.scenario;
    request.ensemble = &given.ensemble;
    std::visit([&](const auto& start) { request.start = start; }, given.start);
    request.from = given.from;
    request.progress = progress;
    auto course = count(request, given.from, given.to);
    if (!course) return std::nullopt;
    auto clear = forecast::chance_by_day(request, course->clear_times);
    if (!clear) return std::nullopt;
    course->clear = std::move(*clear);
    return course;
}

}  // namespace mitefall::service
