#pragma once

#include <string_view>
#include <variant>

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

}  // namespace mitefall::tables
