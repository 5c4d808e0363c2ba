#include "worklist/check_days.h"

#include <algorithm>

#include "worklist/watch.h"
#include "worklist/workday.h"

namespace mitefall::worklist {

std::vector<units::Day> check_days_after(const plan::Schedule& schedule, const evidence::Tables& tables) {
    const auto& rounds = schedule.assignment.rounds;
    if (rounds.empty()) return {};
    units::Day last = rounds.back();
    for (const plan::Round& round : schedule.rounds) {
        if (!round.treatments.empty()) last = std::max(last, round.day);
    }
    for (const plan::DampSpell& spell : schedule.damp) last = std::max(last, spell.last);
    std::vector<units::Day> days;
    for (units::Day day = rounds.front(); day <= last + watch(tables); day += check_interval) {
        if (day > last) days.push_back(day);
    }
    return days;
}

}  // namespace mitefall::worklist
