#pragma once

#include <span>
#include <string>
#include <string_view>

#include "base/result.h"

namespace mitefall::mixing {

/// An amount of money in whole minor units (cents, pence) of one currency. Not negative.
class Money {
  public:
    /// `currency` is an ISO 4217 code: three capital letters.
    [[nodiscard]] static base::Result<Money> make(long long minor_units, std::string_view currency);

    /// "18.90 EUR", "1500 JPY": digits, a point, as many decimals as the currency has or fewer, and the code.
    [[nodiscard]] static base::Result<Money> parse(std::string_view text);

    [[nodiscard]] long long minor_units() const { return minor_units_; }
    [[nodiscard]] const std::string& currency() const { return currency_; }

    /// Refuses another currency and a sum too large to hold.
    [[nodiscard]] base::Result<Money> plus(const Money& other) const;
    /// Refuses a negative number and a product too large to hold.
    [[nodiscard]] base::Result<Money> times(long long number) const;
    /// One of `parts` equal shares, rounded up to a whole minor unit. Refuses fewer than one part.
    [[nodiscard]] base::Result<Money> split(long long parts) const;

    friend bool operator==(const Money&, const Money&) = default;

  private:
    Money(long long minor_units, std::string currency)
        : minor_units_(minor_units), currency_(std::move(currency)) {}
    long long minor_units_;
    std::string currency_;
};

/// Decimals of a currency (ISO 4217): 0 for JPY, 3 for KWD, else 2.
[[nodiscard]] int minor_digits(std::string_view currency);

/// "18.90 EUR", "1500 JPY".
[[nodiscard]] std::string show(const Money& money);

}  // namespace mitefall::mixing
