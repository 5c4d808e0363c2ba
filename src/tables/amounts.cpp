#include "tables/amounts.h"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "records/limits.h"
#include "tables/cells.h"

namespace mitefall::tables {
namespace {

struct Unit {
    double grams;
    std::vector<std::string_view> names;
};

std::optional<double> grams_in(std::string_view unit) {
    constexpr double pound = 453.59237;  // NIST Handbook 44, appendix C
    static const std::vector<Unit> units{{1, {"g", "gr", "gram", "grams"}},
                                         {1000, {"kg", "kilo", "kilos", "kilogram", "kilograms"}},
                                         {pound, {"lb", "lbs", "pound", "pounds"}},
                                         {pound / 16, {"oz", "ounce", "ounces"}}};
    for (const Unit& one : units) {
        if (std::find(one.names.begin(), one.names.end(), unit) != one.names.end()) return one.grams;
    }
    return std::nullopt;
}

Read<double> within(const Read<double>& read, double low, double high) {
    const auto* const value = std::get_if<double>(&read);
    if (value != nullptr && (*value < low || *value > high)) return Fault::not_possible;
    return read;
}

}  // namespace

double grams_of_heading(std::string_view heading) {
    std::string word;
    for (const char c : folded(heading) + " ") {
        if (c >= 'a' && c <= 'z') {
            word += c;
            continue;
        }
        const auto grams = grams_in(word);
        if (grams) return *grams;
        word.clear();
    }
    return 1;
}

Read<double> read_mass(std::string_view text, const Marks& marks, double usual_grams) {
    const WithUnit written = part(text);
    const auto grams = written.unit.empty() ? std::optional(usual_grams) : grams_in(written.unit);
    if (!grams) return Fault::not_a_number;
    const Read<double> read = read_marked(written.number, marks);
    const auto* const value = std::get_if<double>(&read);
    if (value == nullptr) return read;
    if (*value <= 0) return Fault::not_above_zero;
    const double mass = *value * *grams;
    if (!records::check_mass(units::grams(mass))) return Fault::too_heavy;
    return mass;
}

Read<double> read_celsius(std::string_view text) {
    const WithUnit written = part(text);
    std::string unit = written.unit;
    for (const std::string_view word : {"degrees", "degree", "deg", "\u00B0", " "}) {
        for (std::size_t at = unit.find(word); at != std::string::npos; at = unit.find(word))
            unit.erase(at, word.size());
    }
    if (!unit.empty() && unit != "c" && unit != "f") return Fault::not_a_number;
    Read<double> read = read_number(written.number);
    if (auto* const value = std::get_if<double>(&read); value != nullptr && unit == "f")
        *value = (*value - 32) / 1.8;
    return within(read, -10, 60);
}

Read<double> read_percent(std::string_view text) {
    const WithUnit written = part(text);
    if (!written.unit.empty() && written.unit != "%") return Fault::not_a_number;
    return within(read_number(written.number), 0, 100);
}

Read<double> read_area(std::string_view text) {
    text = trimmed(text);
    for (const std::string_view unit : {"cm2", "cm\u00B2"}) {
        if (text.ends_with(unit)) text = trimmed(text.substr(0, text.size() - unit.size()));
    }
    const Read<double> read = read_number(text);
    const auto* const value = std::get_if<double>(&read);
    if (value != nullptr && *value <= 0) return Fault::not_above_zero;
    return read;
}

}  // namespace mitefall::tables
