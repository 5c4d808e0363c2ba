#pragma once

#include <chrono>
#include <string>
#include <string_view>

#include "base/result.h"

namespace mitefall::units {

/// A calendar day. The difference of two is `Days`; two do not add.
using Day = std::chrono::sys_days;
using Days = std::chrono::days;
inline constexpr Days one_day{1};

/// Reads an ISO 8601 calendar date, "2026-03-01". Years 1900 to 2199.
[[nodiscard]] base::Result<Day> parse_day(std::string_view text);

/// ISO 8601, "2026-03-01".
[[nodiscard]] std::string format_day(Day day);

/// "1 Mar 2026", for sentences.
[[nodiscard]] std::string show_day(Day day);

/// "Sun 1 Mar", for people; add the year where it is not this one.
[[nodiscard]] std::string format_day_short(Day day);

}  // namespace mitefall::units
