#pragma once

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "records/facts.h"

// What a single field of a fact may hold. `field` is the word the keeper reads in an error.
namespace mitefall::records {

/// The first failure of several checks.
[[nodiscard]] base::Result<void> first_failure(std::initializer_list<base::Result<void>> checks);

/// A failure, as a value to return.
[[nodiscard]] base::Failure refuse(std::string what, std::string value, std::string limit,
                                   std::string remedy);

/// Whether something stands in the list twice.
template <class T>
[[nodiscard]] bool has_repeats(std::vector<T> list) {
    std::sort(list.begin(), list.end());
    return std::adjacent_find(list.begin(), list.end()) != list.end();
}

inline constexpr std::size_t longest_name = 40;
/// A new name: 1 to 40 of a-z, 0-9 and "-".
[[nodiscard]] base::Result<void> check_new_name(std::string_view field, std::string_view name);

/// Free text: at most 2,000 bytes of valid UTF-8 without control characters other than line ends and tabs.
[[nodiscard]] base::Result<void> check_text(std::string_view field, std::string_view text);
/// The name of a thing, in the keeper's words: the same on one line, without line ends, tabs or marks that
/// turn round the direction of writing.
[[nodiscard]] base::Result<void> check_label(std::string_view field, std::string_view text);
/// As it is shown: on one line, whatever an older or foreign file holds. Line ends and control characters
/// become spaces, marks that turn it round are left out.
[[nodiscard]] std::string on_one_line(std::string_view text);
/// A text of the program's own, cut between two letters where it is longer than check_text allows.
[[nodiscard]] std::string cut_to_fit(std::string text);
/// The same, and not empty.
[[nodiscard]] base::Result<void> check_needed_text(std::string_view field, std::string_view text);

/// A telephone number as it is written down: digits and spaces, "+" in front of an international one (ITU-T
/// E.123), at most 15 digits (ITU-T E.164).
[[nodiscard]] base::Result<void> check_telephone(std::string_view number);

[[nodiscard]] base::Result<void> check_mass(units::Mass mass);
[[nodiscard]] base::Result<void> check_climate(const Climate& climate);
[[nodiscard]] base::Result<void> check_enclosure_floor(units::Area floor);
[[nodiscard]] base::Result<void> check_room_floor(units::Area floor);
/// Zero stands for a method without a strength.
[[nodiscard]] base::Result<void> check_strength(units::Strength strength);
/// Of a bottle of spray.
[[nodiscard]] base::Result<void> check_batch_total(units::Volume total);

}  // namespace mitefall::records
