#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tables/fault.h"
#include "units/day.h"

// What a cell means as a day. What may be read in two ways is never guessed.
namespace mitefall::tables {

/// Which of day and month stands first.
enum class Order { day, month };
/// What a text means if the day stands first, and if the month does.
struct Days {
    std::optional<units::Day> day_first;
    std::optional<units::Day> month_first;
};
[[nodiscard]] Days days_in(std::string_view text);

/// The order in which the days of a column are written, as far as those tell that fit only one; `ask`: some
/// may be two and nothing tells.
struct OrderTold {
    std::optional<Order> order;
    bool ask = false;
};
[[nodiscard]] OrderTold order_of(const std::vector<std::string>& days);
[[nodiscard]] Read<units::Day> read_day(std::string_view text, std::optional<Order> order);

}  // namespace mitefall::tables
