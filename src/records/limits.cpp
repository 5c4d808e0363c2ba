#include "records/limits.h"

#include <fmt/format.h>

#include <algorithm>

#include "units/text.h"

namespace mitefall::records {
namespace {

using base::Result;

constexpr std::size_t longest_text = 2000;
constexpr std::size_t fewest_telephone_digits = 3;  // emergency numbers
constexpr std::size_t most_telephone_digits = 15;   // ITU-T E.164
constexpr double heaviest_kg = 200;                 // the heaviest snakes on record stay well below
constexpr double largest_enclosure_cm2 = 1e6;       // 100 square metres
constexpr double largest_room_cm2 = 1e8;            // 10,000 square metres
constexpr double largest_batch_l = 10000;           // far beyond any spray anybody mixes
constexpr double pure_substance_mg_per_l = 1e6;     // 100 % mass in volume

bool is_name_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; }

std::size_t length_by_lead(unsigned char lead) {
    if (lead < 0x80) return 1;
    if (lead >= 0xC2 && lead <= 0xDF) return 2;
    if (lead >= 0xE0 && lead <= 0xEF) return 3;
    return lead >= 0xF0 && lead <= 0xF4 ? 4 : 0;
}

/// Bytes of the UTF-8 sequence that begins `text`, 0 if there is none (RFC 3629, section 4).
std::size_t sequence_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    const std::size_t length = length_by_lead(lead);
    if (text.size() < length) return 0;
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0U) != 0x80) return 0;
    }
    const bool overlong = (lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xF0 && byte(1) < 0x90);
    const bool beyond = (lead == 0xED && byte(1) > 0x9F) || (lead == 0xF4 && byte(1) > 0x8F);
    return overlong || beyond ? 0 : length;
}

enum class Letter { plain, ends_line, turns_line, control };

/// C0, DEL and C1 (ECMA-48, 5.3) command a terminal; U+2028 and U+2029 end a line too (Unicode 15, 5.8).
/// U+202A to U+202E and U+2066 to U+2069 turn round the order of what comes after them (Unicode Standard
/// Annex 9).
Letter kind_of(std::string_view sequence) {
    const auto lead = static_cast<unsigned char>(sequence.front());
    if (lead == '\n' || lead == '\t' || lead == '\r') return Letter::ends_line;
    if (sequence == "\u2028" || sequence == "\u2029") return Letter::ends_line;
    const bool turns =
        (sequence >= "\u202A" && sequence <= "\u202E") || (sequence >= "\u2066" && sequence <= "\u2069");
    if (turns) return Letter::turns_line;
    const bool c1 = lead == 0xC2 && sequence.size() == 2 && static_cast<unsigned char>(sequence[1]) < 0xA0;
    return lead < 0x20 || lead == 0x7F || c1 ? Letter::control : Letter::plain;
}

bool is_plain_text(std::string_view text, bool on_one_line) {
    while (!text.empty()) {
        const std::size_t length = sequence_length(text);
        if (length == 0) return false;
        const Letter letter = kind_of(text.substr(0, length));
        if (letter == Letter::control || (on_one_line && letter != Letter::plain)) return false;
        text.remove_prefix(length);
    }
    return true;
}

/// Written so that NaN fails.
Result<void> check_within(std::string_view field, double value, double low, double high,
                          std::string_view unit) {
    if (value >= low && value <= high) return {};
    return base::fail(base::invalid(
        fmt::format("the {} is not possible", field), fmt::format("{} {}", value, unit),
        fmt::format("{} to {} {}", units::show_number(low, 9), units::show_number(high, 9), unit),
        "check the number and its unit"));
}

Result<void> check_above_zero(std::string_view field, double value, double high, std::string_view unit) {
    if (value > 0 && value <= high) return {};
    return base::fail(base::invalid(fmt::format("the {} is not possible", field),
                                    fmt::format("{} {}", value, unit),
                                    fmt::format("above 0, at most {} {}", units::show_number(high, 9), unit),
                                    "check the number and its unit"));
}

}  // namespace

base::Failure refuse(std::string what, std::string value, std::string limit, std::string remedy) {
    return base::fail(base::invalid(std::move(what), std::move(value), std::move(limit), std::move(remedy)));
}

Result<void> first_failure(std::initializer_list<Result<void>> checks) {
    const auto* const failed =
        std::find_if(checks.begin(), checks.end(), [](const auto& check) { return !check; });
    return failed == checks.end() ? Result<void>{} : *failed;
}

Result<void> check_new_name(std::string_view field, std::string_view name) {
    const bool good =
        !name.empty() && name.size() <= longest_name && std::all_of(name.begin(), name.end(), is_name_letter);
    if (good) return {};
    return base::fail(
        base::invalid(fmt::format("not a usable name for {}", field), std::string(name.substr(0, 80)),
                      "1 to 40 characters: a to z, 0 to 9 and \"-\"", "choose a name like r1-04"));
}

namespace {

Result<void> check_text(std::string_view field, std::string_view text, bool on_one_line) {
    if (text.size() > longest_text) {
        return base::fail(base::invalid(fmt::format("the {} is too long", field),
                                        fmt::format("{} bytes", text.size()),
                                        fmt::format("at most {} bytes", longest_text), "shorten it"));
    }
    if (is_plain_text(text, on_one_line)) return {};
    return base::fail(base::invalid(fmt::format("the {} is not plain text", field), "",
                                    on_one_line
                                        ? "UTF-8 text on one line, without control characters or marks "
                                          "that turn the line round"
                                        : "UTF-8 text without control characters",
                                    "type it again"));
}

}  // namespace

Result<void> check_text(std::string_view field, std::string_view text) {
    return check_text(field, text, false);
}

Result<void> check_label(std::string_view field, std::string_view text) {
    return check_text(field, text, true);
}

std::string on_one_line(std::string_view text) {
    std::string line;
    while (!text.empty()) {
        const std::size_t length = std::max<std::size_t>(sequence_length(text), 1);
        const std::string_view sequence = text.substr(0, length);
        const Letter letter = sequence_length(text) == 0 ? Letter::control : kind_of(sequence);
        if (letter == Letter::plain)
            line += sequence;
        else if (letter != Letter::turns_line)
            line += ' ';
        text.remove_prefix(length);
    }
    return line;
}

std::string cut_to_fit(std::string text) {
    constexpr std::string_view more = " ...";
    if (text.size() <= longest_text) return text;
    std::size_t end = longest_text - more.size();
    const auto is_inside_letter = [&](std::size_t at) { return (text[at] & 0xC0) == 0x80; };
    while (end > 0 && is_inside_letter(end)) --end;
    return text.substr(0, end).append(more);
}

Result<void> check_needed_text(std::string_view field, std::string_view text) {
    if (!text.empty()) return check_text(field, text);
    return base::fail(
        base::invalid(fmt::format("the {} is missing", field), "", "it cannot be empty", "fill it in"));
}

Result<void> check_telephone(std::string_view number) {
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    const std::string_view rest = number.substr(number.starts_with('+') ? 1 : 0);
    const auto digits = static_cast<std::size_t>(std::count_if(rest.begin(), rest.end(), is_digit));
    const bool is_plain =
        std::all_of(rest.begin(), rest.end(), [&](char c) { return is_digit(c) || c == ' '; });
    if (is_plain && digits >= fewest_telephone_digits && digits <= most_telephone_digits) return {};
    return refuse("that is no telephone number", std::string(number),
                  fmt::format("{} to {} digits, spaces between them, + only in front",
                              fewest_telephone_digits, most_telephone_digits),
                  "write it as it is dialled: \"+49 30 1234567\"");
}

Result<void> check_mass(units::Mass mass) {
    return check_above_zero("weight", in_kilograms(mass), heaviest_kg, "kg");
}

Result<void> check_climate(const Climate& climate) {
    return first_failure({check_within("temperature by day", in_celsius(climate.day), -10, 60, "C"),
                          check_within("temperature by night", in_celsius(climate.night), -10, 60, "C"),
                          check_within("humidity", in_percent(climate.humidity), 0, 100, "%")});
}

Result<void> check_enclosure_floor(units::Area floor) {
    return check_above_zero("floor area", in_square_centimetres(floor), largest_enclosure_cm2, "cm2");
}

Result<void> check_room_floor(units::Area floor) {
    return check_above_zero("floor area", in_square_centimetres(floor), largest_room_cm2, "cm2");
}

Result<void> check_strength(units::Strength strength) {
    return check_within("strength", in_milligrams_per_litre(strength), 0, pure_substance_mg_per_l, "mg/L");
}

Result<void> check_batch_total(units::Volume total) {
    return check_above_zero("volume of the batch", in_litres(total), largest_batch_l, "L");
}

}  // namespace mitefall::records
