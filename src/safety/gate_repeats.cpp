#include <algorithm>

#include "safety/gates.h"
#include "safety/methods.h"

// How often and how soon an acaricide may be put on one animal again.
namespace mitefall::safety {
namespace {

/// Acaricides on the animal, given or proposed. One given in its enclosure with no animal named may have been
/// given to this one.
std::vector<Told> applications_of(const Question& question) {
    std::vector<Told> applications = question.told;
    std::erase_if(applications, [](const Told& one) { return !is_on_animal_acaricide(one.method); });
    return applications;
}

std::vector<units::Day> sorted_days(const std::vector<Told>& applications) {
    std::vector<units::Day> days;
    for (const Told& application : applications) days.push_back(application.when.day);
    std::sort(days.begin(), days.end());
    return days;
}

void check_interval(const Question& question, const std::vector<units::Day>& applications,
                    Findings& findings) {
    const auto interval = question.with.tables.time("min_interval");
    const units::Day day = question.request.day;
    const units::Day free = first_day_apart(applications, day, interval.value);
    if (free == day) return;
    wait(findings, question.with.tables, says::too_soon(interval.value), free);
}

/// The most applications in any span of `window` days that contains `day`, that day's own included.
std::size_t most_in_window(std::vector<units::Day> applications, units::Day day, units::TimeSpan window) {
    applications.push_back(day);
    std::size_t most = 0;
    for (const units::Day start : applications) {
        const auto is_inside = [&](units::Day d) {
            return d >= start && days_apart(start, d) < units::in_days(window);
        };
        if (!is_inside(day)) continue;
        most = std::max(most, static_cast<std::size_t>(
                                  std::count_if(applications.begin(), applications.end(), is_inside)));
    }
    return most;
}

/// Those of the same method are bounded by the number a direction names; of others it need not have known.
void check_number(const Question& question, std::vector<Told> applications, Findings& findings) {
    const auto limit = question.with.tables.number("max_applications");
    const auto window = question.with.tables.time("course_window");
    const std::size_t number = most_in_window(sorted_days(applications), question.request.day, window.value);
    if (static_cast<double>(number) <= units::as_number(limit.value)) return;
    std::erase_if(applications, [&](const Told& one) {
        return one.method == question.request.method ||
               !(days_apart(one.when.day, question.request.day) < units::in_days(window.value));
    });
    rest_on(refuse(findings, question.with.tables,
                   says::too_often(static_cast<double>(number), window.value, units::as_number(limit.value)),
                   says::enclosure_and_checks()),
            applications);
}

}  // namespace

void check_repeats(const Question& question, Findings& findings) {
    if (!is_on_animal_acaricide(question.request.method)) return;
    std::vector<Told> applications = applications_of(question);
    check_interval(question, sorted_days(applications), findings);
    check_number(question, std::move(applications), findings);
}

}  // namespace mitefall::safety
