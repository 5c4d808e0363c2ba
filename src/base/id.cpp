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

}  // namespace

/// The order of the texts cut into numbers and single letters, numbers by value and those of one value by
/// length, longest first. Up to the first difference the pieces are alike, so one comparison decides.
std::strong_ordering count_order(std::string_view a, std::string_view b) {
    std::size_t at = 0;
    while (at < a.size() && at < b.size() && a[at] == b[at]) ++at;
    const Number m = number_at(a, at);
    const Number n = number_at(b, at);
    if (!m.run.empty() && !n.run.empty()) {
        if (m.value.size() != n.value.size()) return m.value.size() <=> n.value.size();
        if (const int order = m.value.compare(n.value); order != 0) return order <=> 0;
        if (m.run.size() != n.run.size()) return n.run.size() <=> m.run.size();
    }
    return a.compare(b) <=> 0;
}

}  // namespace mitefall::base
