#include "safety/shed.h"

#include <algorithm>
#include <cmath>

namespace mitefall::safety {
namespace {

using records::ShedState;
using units::Day;
using units::Days;

Days whole_days(const evidence::Tables& tables, std::string_view key) {
    return Days(std::lround(std::ceil(units::in_days(tables.time(key).value))));
}

}  // namespace

std::optional<ShedAwaited> shed_awaited(const records::Animal& animal, Day today,
                                        const evidence::Tables& tables) {
    if (!animal.shed || animal.shed->value == ShedState::shed) return std::nullopt;
    const Day told = animal.shed->day;
    const Days after = whole_days(tables, "wait_after_shed");
    ShedAwaited awaited;
    awaited.seen = animal.shed->value;
    awaited.since = std::min(animal.cloudy_since.value_or(told), told);
    if (awaited.seen == ShedState::clear) {
        awaited.free_from = told + whole_days(tables, "clear_to_shed") + after;
        return today < awaited.free_from ? std::optional(awaited) : std::nullopt;
    }
    Day ask = awaited.since + whole_days(tables, "cloudy_to_shed");
    if (told > awaited.since) ask = std::max(ask, told + whole_days(tables, "shed_asked_again"));
    awaited.ask_from = ask;
    awaited.free_from = std::max(ask + after, today + Days(1));
    return awaited;
}

}  // namespace mitefall::safety
