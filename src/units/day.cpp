#include "units/day.h"

#include <fmt/format.h>

#include <array>
#include <charconv>

namespace mitefall::units {
namespace {

bool read_digits(std::string_view text, int& number) {
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    return fault == std::errc{} && end == text.data() + text.size();
}

}  // namespace

base::Result<Day> parse_day(std::string_view text) {
    int year = 0;
    int month = 0;
    int day = 0;
    const bool shaped = text.size() == 10 && text[4] == '-' && text[7] == '-' &&
                        read_digits(text.substr(0, 4), year) && read_digits(text.substr(5, 2), month) &&
                        read_digits(text.substr(8, 2), day);
    if (!shaped) {
        return base::fail(base::invalid("not a date", std::string(text), "a date is written year-month-day",
                                        "write it like 2026-03-01"));
    }
    const std::chrono::year_month_day date{std::chrono::year(year),
                                           std::chrono::month(static_cast<unsigned>(month)),
                                           std::chrono::day(static_cast<unsigned>(day))};
    if (month < 0 || day < 0 || !date.ok() || year < 1900 || year > 2199) {
        return base::fail(base::invalid("no such day", std::string(text),
                                        "a day of the calendar, years 1900 to 2199",
                                        "check the month and the day"));
    }
    return Day(date);
}

std::string format_day(Day day) {
    const std::chrono::year_month_day date(day);
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

namespace {

std::string day_and_month(const std::chrono::year_month_day& date) {
    static constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    return fmt::format("{} {}", static_cast<unsigned>(date.day()),
                       months.at(static_cast<unsigned>(date.month()) - 1));
}

}  // namespace

std::string show_day(Day day) {
    const std::chrono::year_month_day date(day);
    return fmt::format("{} {}", day_and_month(date), static_cast<int>(date.year()));
}

std::string format_day_short(Day day) {
    static constexpr std::array weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
    const std::chrono::weekday weekday(day);
    return fmt::format("{} {}", weekdays.at(weekday.c_encoding()),
                       day_and_month(std::chrono::year_month_day(day)));
}

}  // namespace mitefall::units
