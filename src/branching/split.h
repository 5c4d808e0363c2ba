#pragma once

#include <vector>

#include "branching/network.h"

// A run that is left only through its last substage delays what passes and does nothing else. Over a step its
// values follow exactly from those at the start and from what its end leads to, however fast its substages
// are (docs/decisions/0013). The solver therefore integrates numerically only the other, open, runs.
namespace mitefall::branching {

/// A pure delay.
struct Chain {
    TypeIndex first = 0;  ///< in the network
    std::uint32_t count = 0;
    std::uint32_t run = 0;  ///< in the network
    TypeIndex cell = 0;     ///< of its first substage
    ValueIndex advance = 0;
    ValueIndex loss = 0;
    Slice ends;  ///< of Split::chain_ends
};

/// The network in cells: one for each substage of an open run, then one for the expected failures among
/// imported particles, then one for the first substage of each chain.
struct Split {
    Network open;  ///< the open runs, in cells; without values and events
    std::vector<std::uint32_t> open_runs;
    std::vector<Chain> chains;  ///< each after those its end leads to
    std::vector<End> chain_ends;
    std::vector<TypeIndex> type_of_cell;  ///< no_type for the imported
    std::vector<TypeIndex> cell_of_type;  ///< no_type for the later substages of chains
    [[nodiscard]] TypeIndex imported() const { return open.type_count; }
};

[[nodiscard]] Split split(const Network& network);

}  // namespace mitefall::branching
