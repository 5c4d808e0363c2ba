#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "plan/schedule.h"

namespace mitefall::plan {
namespace {

using records::Method;

/// Refusals of one method with the same thing to do about them.
struct Counted {
    safety::Reason first;
    int times = 0;
};

/// Something else was to be done, and this was tried in its place.
bool is_instead(const LeftOut& row, const Assignment& assignment) {
    return row.method == Method::wipe || (row.method == Method::soak && !assignment.choices.soak_animals);
}

std::set<Method> methods_done(const Schedule& schedule) {
    std::set<Method> done;
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& scheduled : round.treatments)
            done.insert(scheduled.treatment.method());
    }
    return done;
}

}  // namespace

std::vector<Refused> refused_in(const Schedule& schedule) {
    const std::set<Method> done = methods_done(schedule);
    std::vector<Refused> refused;
    std::map<Method, std::map<std::string, Counted>> reasons;  // by what to do
    for (const LeftOut& row : schedule.left_out) {
        if (is_instead(row, schedule.assignment) || done.contains(row.method)) continue;
        const auto [of_method, is_new] = reasons.try_emplace(row.method);
        if (is_new) refused.push_back({row.method, {}});
        const auto& what = row.why.remedy.empty() ? row.why.what : row.why.remedy;
        const auto [counted, is_first] = of_method->second.try_emplace(key_of(what), Counted{row.why});
        ++counted->second.times;
    }
    for (Refused& one : refused) {
        std::vector<Counted> by_number;
        for (auto& [key, counted] : reasons.at(one.method)) by_number.push_back(std::move(counted));
        std::stable_sort(by_number.begin(), by_number.end(), [](const Counted& a, const Counted& b) {
            return std::pair(a.times, a.first.ruling) > std::pair(b.times, b.first.ruling);
        });
        for (Counted& counted : by_number) one.reasons.push_back(std::move(counted.first));
    }
    return refused;
}

}  // namespace mitefall::plan
