#pragma once

#include <string_view>
#include <variant>

#include "base/vocabulary.h"

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
[[nodiscard]] constexpr auto vocabulary_of(Fault) {
    using enum Fault;
    return base::vocabulary("fault of a table", no_animal, "no-animal", no_enclosure, "no-enclosure",
                            on_record, "on-record", not_a_number, "not-a-number", two_numbers, "two-numbers",
                            not_above_zero, "not-above-zero", too_heavy, "too-heavy", not_possible,
                            "not-possible", not_a_day, "not-a-day", two_days, "two-days", day_to_come,
                            "day-to-come", not_a_choice, "not-a-choice", refused, "refused");
}
using base::to_text;
[[nodiscard]] std::string_view describe(Fault fault);  ///< for people: "it may be two days"

/// A value, or why there is none.
template <class T>
using Read = std::variant<T, Fault>;

}  // namespace mitefall::tables
