#pragma once

namespace mitefall::base {

/// `base` to a whole power, not below 0, by squaring.
[[nodiscard]] constexpr double power(double base, int exponent) {
    double result = 1;
    for (; exponent > 0; exponent /= 2, base *= base) {
        if (exponent % 2 == 1) result *= base;
    }
    return result;
}

}  // namespace mitefall::base
