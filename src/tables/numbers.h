#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tables/fault.h"

// What a cell means as a number with its marks. What may be read in two ways is never guessed.
namespace mitefall::tables {

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

/// The same with what the marks of the column mean.
[[nodiscard]] Read<double> read_marked(std::string_view text, const Marks& marks);

struct WithUnit {
    std::string_view number;
    std::string unit;  ///< small letters; empty: none
};

[[nodiscard]] WithUnit part(std::string_view text);

}  // namespace mitefall::tables
