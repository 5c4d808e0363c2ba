#include "service/course.h"

#include <algorithm>

namespace mitefall::service {
namespace {

constexpr double week = 7;

std::vector<std::string> names_of(const forecast::Scenario& scenario) {
    std::vector<std::string> names;
    for (const forecast::Place& place : scenario.places) names.push_back(place.name);
    return names;
}

/// Counts daily and on the days of the curve.
std::optional<Course> follow(const forecast::ForecastRequest& request, double day_zero, double to) {
    Course course;
    course.day_zero = day_zero;
    course.places = names_of(*request.scenario);
    course.clear_times = forecast::days_between(day_zero, to, week);
    auto counts = forecast::course_of_counts(request, forecast::days_between(day_zero, to, 1),
                                             forecast::draw_weights(request));
    if (!counts) return std::nullopt;
    auto clear = forecast::chance_by_day(request, course.clear_times);
    if (!clear) return std::nullopt;
    course.counts = std::move(*counts);
    course.clear = std::move(*clear);
    return course;
}

}  // namespace

std::optional<Course> course_of(const Planned& planned, const plan::Schedule& schedule,
                                const Knowledge& knowledge, const PlanOptions& options) {
    const plan::Setting& setting = *planned.setting;
    const forecast::RecordedCase& known = setting.known;
    const auto ensemble = forecast::draw_parameters(knowledge.tables, options.draws, options.seed);
    const forecast::Scenario scenario =
        plan::apply(schedule, setting, forecast::forget_past(known.scenario, known.from));
    forecast::ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble;
    request.start = &planned.belief;
    request.from = known.from;
    request.tolerance = forecast::for_show;
    request.progress = options.progress;
    const double today = known.time_of(setting.today);
    return follow(request, today, today + options.horizon_days);
}

std::optional<Course> course_of(const formats::CaseFile& given, const std::function<bool(double)>& progress) {
    forecast::ForecastRequest request;
    request.scenario = &given.scenario;
    request.ensemble = &given.ensemble;
    std::visit([&](const auto& start) { request.start = start; }, given.start);
    request.from = given.from;
    request.progress = progress;
    return follow(request, given.from, given.to);
}

}  // namespace mitefall::service
