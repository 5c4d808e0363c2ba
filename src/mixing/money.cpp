#include "mixing/money.h"

#include <algorithm>
#include <limits>

namespace mitefall::mixing {
namespace {

using base::fail;
using base::invalid;
using base::Result;

constexpr long long largest = std::numeric_limits<long long>::max();

base::Error too_large(const std::string& value) {
    return invalid("the amount of money is too large", value, std::to_string(largest) + " minor units",
                   "check the price and the number of packages");
}

}  // namespace

Result<Money> Money::make(long long minor_units, std::string_view currency) {
    const bool is_code = currency.size() == 3 && std::all_of(currency.begin(), currency.end(),
                                                             [](char c) { return c >= 'A' && c <= 'Z'; });
    if (!is_code) {
        return fail(invalid("not a currency code", std::string(currency), "ISO 4217: three capital letters",
                            "write it like EUR"));
    }
    if (minor_units < 0) {
        return fail(invalid("a price cannot be negative", std::to_string(minor_units), "zero or more",
                            "correct the price"));
    }
    return Money(minor_units, std::string(currency));
}

Result<Money> Money::plus(const Money& other) const {
    if (other.currency_ != currency_) {
        return fail(invalid("two currencies do not add", currency_ + " and " + other.currency_,
                            "one currency", "enter all prices in one currency"));
    }
    if (other.minor_units_ > largest - minor_units_) return fail(too_large(std::to_string(minor_units_)));
    return Money(minor_units_ + other.minor_units_, currency_);
}

Result<Money> Money::times(long long number) const {
    if (number < 0)
        return fail(invalid("a number of things cannot be negative", std::to_string(number), "zero or more"));
    if (number > 0 && minor_units_ > largest / number) return fail(too_large(std::to_string(minor_units_)));
    return Money(minor_units_ * number, currency_);
}

Result<Money> Money::split(long long parts) const {
    if (parts < 1)
        return fail(invalid("nothing to share the cost among", std::to_string(parts), "one or more"));
    return Money(minor_units_ / parts + (minor_units_ % parts == 0 ? 0 : 1), currency_);
}

}  // namespace mitefall::mixing
