#pragma once

namespace mitefall::units {

/// Whether a value keeps to a limit. What was made to a limit may miss it in the last bits of a sum: it is
/// within. False where either is not a number.
template <class Q>
[[nodiscard]] constexpr bool is_within(Q value, Q limit) {
    return value <= limit * (1 + 1e-9);
}

}  // namespace mitefall::units
