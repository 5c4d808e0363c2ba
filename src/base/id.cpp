#include "base/id.h"

#include <algorithm>

namespace mitefall::base {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Digits in a row.
struct Number {
    std::string_view run;
    std::string_view value;  ///< without leading zeros
};

/// The number that a position lies in or just behind; empty if there is none.
Number number_at(std::string_view text, std::size_t at) {
    std::size_t begin = at;
    while (begin > 0 && is_digit(text[begin - 1])) --begin;
    std::size_t end = at;
    while (end < text.size() && is_digit(text[end])) ++end;
    const std::string_view run = text.substr(begin, end - begin);
    return {run, run.substr(std::min(run.size(), run.find_first_not_of('0')))};
}

std::size_t digits_from(std::string_view text, std::size_t at) {
    std::size_t end = at;
    while (end < text.size() && is_digit(text[end])) ++end;
    return end - at;
}

/// Of texts that are alike before `at`.
std::strong_ordering letter_order(std::string_view a, std::string_view b, std::size_t at) {
    if (at == a.size() || at == b.size()) return a.size() <=> b.size();
    return static_cast<unsigned char>(a[at]) <=> static_cast<unsigned char>(b[at]);
}

}  // namespace

/// The order of the texts cut into numbers and single letters, numbers by value and those of one value by
/// length, longest first. Up to the first difference the pieces are alike, so one comparison decides.
std::strong_ordering count_order(std::string_view a, std::string_view b) {
    std::size_t at = 0;
    while (at < a.size() && at < b.size() && a[at] == b[at]) ++at;
    // Numbers of one length are in the order of their digits.
    if (digits_from(a, at) == digits_from(b, at)) return letter_order(a, b, at);
    const Number m = number_at(a, at);
    const Number n = number_at(b, at);
    if (m.run.empty() || n.run.empty()) return letter_order(a, b, at);
    if (m.value.size() != n.value.size()) return m.value.size() <=> n.value.size();
    if (const int order = m.value.compare(n.value); order != 0) return order <=> 0;
    return n.run.size() <=> m.run.size();
}

}  // namespace mitefall::base
