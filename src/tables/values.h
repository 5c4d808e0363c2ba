#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "units/day.h"

// What the cells of a column mean: numbers with their marks, weights, days. What may be read in two ways is
// never guessed.
namespace mitefall::tables {

/// Why a row or a cell is not taken.
enum class Fault {
    no_animal,
    no_enclosure,
    on_record,
    not_a_number,
    two_numbers,
    not_above_zero,
    too_heavy,
    not_possible,
    not_a_day,
    two_days,
    day_to_come,
    not_a_choice,
    refused
};
[[nodiscard]] std::string_view to_text(Fault fault);   ///< "two-days"
[[nodiscard]] std::string_view describe(Fault fault);  ///< for people: "it may be two days"

/// A value, or why there is none.
template <class T>
using Read = std::variant<T, Fault>;

enum class Mark { decimal, thousands };
/// What a comma or a point means in a column, told by the cells that can mean only one thing.
struct Marks {
    std::optional<Mark> comma;
    std::optional<Mark> point;
};
[[nodiscard]] Marks marks_of(const std::vector<std::string>& weights);

/// A number with whatever marks are plain by themselves: "1620", "1,62", "1 620,5", "1.620,5"; "1,620" may be
/// two.
[[nodiscard]] Read<double> read_number(std::string_view text);

/// Grams in one of the unit a heading names: "Weight (kg)"; 1 where it names none.
[[nodiscard]] double grams_of_heading(std::string_view heading);
/// A weight in grams: above 0, at most 200 kg (records/limits.h).
[[nodiscard]] Read<double> read_mass(std::string_view text, const Marks& marks, double usual_grams);
[[nodiscard]] Read<double> read_celsius(std::string_view text);  ///< "29", "29 C", "84 F"; -10 to 60 C
[[nodiscard]] Read<double> read_percent(std::string_view text);  ///< 0 to 100
[[nodiscard]] Read<double> read_area(std::string_view text);     ///< cm2, above 0

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
