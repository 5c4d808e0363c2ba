#pragma once

#include <cstddef>

// What is told with every answer about a collection in which something is damaged (decision 37).
namespace mitefall::formats {

/// Entries set aside that are told in full; of more it is told how many there are.
inline constexpr std::size_t most_damage_told = 20;

}  // namespace mitefall::formats
