#include "safety/shed.h"

#include <algorithm>

#include "units/whole_days.h"

namespace mitefall::safety {
namespace {

using records::ShedState;
using units::Day;
using units::Days;

Days wait(const evidence::Tables& tables, evidence::TimeKey key) {
    return units::at_least_days(tables.time(key).value);
}

}  // namespace

std::optional<ShedAwaited> shed_awaited(const records::Animal& animal, Day today,
                                        const evidence::Tables& tables) {
    if (!animal.shed || animal.shed->value == ShedState::shed) return std::nullopt;
    const Day told = animal.shed->day;
    const Days after = wait(tables, "wait_after_shed");
    ShedAwaited awaited;
    awaited.seen = animal.shed->value;
    awaited.since = std::min(animal.cloudy_since.value_or(told), told);
    if (awaited.seen == ShedState::clear) {
        awaited.free_from = told + wait(tables, "clear_to_shed") + after;
        return today < awaited.free_from ? std::optional(awaited) : std::nullopt;
    }
    Day ask = awaited.since + wait(tables, "cloudy_to_shed");
    if (told > awaited.since) ask = std::max(ask, told + wait(tables, "shed_asked_again"));
    awaited.ask_from = ask;
    awaited.free_from = std::max(ask + after, today + Days(1));
    return awaited;
}

}  // namespace mitefall::safety
