#include <algorithm>

#include "safety/gates.h"
#include "safety/methods.h"

// Methods that do not go together: oil and acaricides on one skin, predatory mites and what kills mites.
namespace mitefall::safety {
namespace {

using records::Method;

std::vector<Application> all_about(const Question& question) {
    std::vector<Application> all;
    for (const Told& one : question.told) all.push_back({one.method, one.when.day});
    return all;
}

template <class Test>
std::vector<units::Day> days_of(const std::vector<Application>& applications, Test test) {
    std::vector<units::Day> days;
    for (const Application& application : applications) {
        if (test(application.method)) days.push_back(application.day);
    }
    std::sort(days.begin(), days.end());
    return days;
}

bool is_acaricide_on_skin(Method method) { return touches_skin(method) && agent_of(method) != Agent::none; }

void warn_of_substrate(const Case& with, const records::Enclosure& enclosure, Findings& findings) {
    if (enclosure.substrate == records::Substrate::loose) return;
    heed(findings.cautions, with.tables, says::predators_need_substrate());
}

void refuse_release(const Case& with, const std::vector<units::Day>& killers, units::Day day,
                    Findings& findings) {
    const auto distance = with.tables.time("predator_wait");
    const units::Day free = first_day_apart(killers, day, distance.value);
    if (free == day) return;
    wait(findings, with.tables, says::kills_predators(distance.value), free);
}

void warn_of_losing_them(const Case& with, const std::vector<units::Day>& releases, units::Day day,
                         Findings& findings) {
    const auto stay = with.tables.time("predator_stay");
    for (const units::Day release : releases) {
        if (release > day || days_apart(release, day) >= units::in_days(stay.value)) continue;
        heed(findings.cautions, with.tables, says::ends_predators(release));
        return;
    }
}

void check_company(const Case& with, const records::Enclosure& enclosure, const Request& request,
                   const std::vector<Application>& others, Findings& findings) {
    if (request.method == Method::predatory_mites) {
        warn_of_substrate(with, enclosure, findings);
        return refuse_release(with, days_of(others, kills_predators), request.day, findings);
    }
    const bool takes_substrate = records::row_of(request.method).paper == records::Paper::renewed;
    if (!kills_predators(request.method) && !takes_substrate) return;
    const auto releases = days_of(others, [](Method m) { return m == Method::predatory_mites; });
    warn_of_losing_them(with, releases, request.day, findings);
}

std::vector<Application> done_in(const records::Enclosure& enclosure, std::span<const Application> proposed) {
    std::vector<Application> all(proposed.begin(), proposed.end());
    for (const auto& done : enclosure.treatments) all.push_back({done.value.method, done.day});
    return all;
}

}  // namespace

void check_oil(const Question& question, Findings& findings) {
    const Method method = question.request.method;
    if (method != Method::oil_wipe && !is_acaricide_on_skin(method)) return;
    const auto distance = question.with.tables.time("oil_wait");
    const auto clashes = [&](Method other) {
        return method == Method::oil_wipe ? is_acaricide_on_skin(other) : other == Method::oil_wipe;
    };
    const units::Day free =
        first_day_apart(days_of(all_about(question), clashes), question.request.day, distance.value);
    if (free == question.request.day) return;
    wait(findings, question.with.tables, says::oil_and_acaricide(distance.value), free);
}

void check_predators_in(const Case& with, const records::Enclosure& enclosure, const Request& request,
                        std::span<const Application> proposed, Findings& findings) {
    check_company(with, enclosure, request, done_in(enclosure, proposed), findings);
}

void check_predators(const Question& question, Findings& findings) {
    check_predators_in(question.with, question.home, question.request, question.proposed, findings);
}

}  // namespace mitefall::safety
