#include "plan/effort.h"

#include <algorithm>
#include <map>

namespace mitefall::plan {
namespace {

struct DayOfWork {
    units::TimeSpan hands;
    int soaks = 0;
};

std::map<units::Day, DayOfWork> days_of(const Schedule& schedule, const evidence::Tables& tables) {
    std::map<units::Day, DayOfWork> days;
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& scheduled : round.treatments) {
            const records::Method method = scheduled.treatment.method();
            DayOfWork& day = days[scheduled.treatment.day()];
            if (method == records::Method::soak) ++day.soaks;
            day.hands += method == records::Method::wipe ? tables.time("effort_wipe").value
                                                         : tables.time("effort_look_over").value;
        }
    }
    return days;
}

}  // namespace

Effort effort_of(const Schedule& schedule, const evidence::Tables& tables) {
    const units::TimeSpan soak = tables.time("effort_soak").value;
    const units::TimeSpan other = tables.time("effort_look_over").value;
    Effort effort;
    for (const auto& [date, day] : days_of(schedule, tables)) {
        const units::TimeSpan time = day.soaks > 0 ? day.hands + (soak - other) : day.hands;
        ++effort.days;
        effort.all += time;
        effort.longest = std::max(effort.longest, time);
        effort.one_by_one = std::max(effort.one_by_one, day.hands + day.soaks * (soak - other));
    }
    return effort;
}

}  // namespace mitefall::plan
