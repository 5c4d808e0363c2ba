#pragma once

#include <cstddef>

namespace mitefall::bench {

/// Does `rounds` rounds of independent multiply-adds on one thread with the widest vectors of the machine.
/// Returns how many multiply-adds of doubles that was. `result` keeps them from being left out.
std::size_t multiply_add(std::size_t rounds, double& result);

}  // namespace mitefall::bench
