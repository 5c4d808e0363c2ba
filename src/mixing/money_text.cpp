#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "mixing/money.h"

// Money as people write it. Whole numbers throughout: a price must not change by being read.
namespace mitefall::mixing {
namespace {

using base::fail;
using base::invalid;
using base::Result;

// ISO 4217, list one: currencies without and with three decimals.
constexpr std::array without_decimals{"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG",
                                      "RWF", "UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF"};
constexpr std::array three_decimals{"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"};

template <std::size_t Size>
bool is_among(const std::array<const char*, Size>& list, std::string_view currency) {
    return std::find(list.begin(), list.end(), currency) != list.end();
}

base::Error not_money(std::string_view text) {
    return invalid("not a price", std::string(text.substr(0, 60)), "an amount of zero or more and a currency",
                   "write it like \"18.90 EUR\"");
}

bool all_digits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

int minor_digits(std::string_view currency) {
    if (is_among(without_decimals, currency)) return 0;
    return is_among(three_decimals, currency) ? 3 : 2;
}

Result<Money> Money::parse(std::string_view text) {
    const auto space = text.find(' ');
    if (space == std::string_view::npos) return fail(not_money(text));
    const std::string_view amount = text.substr(0, space);
    const std::string_view currency = text.substr(space + 1);
    const auto point = amount.find('.');
    const std::string_view whole = amount.substr(0, point);
    std::string decimals(point == std::string_view::npos ? "" : amount.substr(point + 1));
    const auto digits = static_cast<std::size_t>(minor_digits(currency));
    if (whole.empty() || !all_digits(whole) || !all_digits(decimals)) return fail(not_money(text));
    if (decimals.size() > digits) {
        return fail(invalid("a price with more decimals than the currency has", std::string(text),
                            fmt::format("{} decimals", digits), "round it"));
    }
    decimals.resize(digits, '0');
    const std::string minor = std::string(whole) + decimals;
    long long units = 0;
    const auto [end, fault] = std::from_chars(minor.data(), minor.data() + minor.size(), units);
    if (fault != std::errc{} || end != minor.data() + minor.size()) return fail(not_money(text));
    return make(units, currency);
}

std::string show(const Money& money) {
    const int digits = minor_digits(money.currency());
    long long part = 1;
    for (int i = 0; i < digits; ++i) part *= 10;
    const long long whole = money.minor_units() / part;
    if (digits == 0) return fmt::format("{} {}", whole, money.currency());
    return fmt::format("{}.{:0{}} {}", whole, money.minor_units() % part, digits, money.currency());
}

}  // namespace mitefall::mixing
