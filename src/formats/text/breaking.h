#pragma once

#include <string>
#include <string_view>
#include <vector>

// Where a line may end: between words, never between a number and its unit.
namespace mitefall::formats {

using Lines = std::vector<std::string>;

/// Words, with those glued together that would be misread if they were parted.
[[nodiscard]] std::vector<std::string> unparted(std::string_view text);

/// Lines no wider than `width`.
[[nodiscard]] Lines broken(std::string_view text, std::size_t width);

}  // namespace mitefall::formats
