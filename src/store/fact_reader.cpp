#include "store/fact_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace mitefall::store {
namespace {

const nlohmann::json nothing;

std::string shorten(const nlohmann::json& value) {
    std::string text = value.dump(-1, ' ', true, nlohmann::json::error_handler_t::replace);
    if (text.size() > 60) text = text.substr(0, 57) + "...";
    return text;
}

}  // namespace

base::Error unreadable(records::FactId fact, const std::string& key, std::string what, std::string value,
                       std::string limit) {
    return {base::ErrorKind::damaged,
            std::move(what),
            std::move(value),
            std::move(limit),
            "restore the file from a copy; it was changed by something other than this program",
            key.empty() ? fmt::format("fact {}", fact) : fmt::format("fact {}, {}", fact, key)};
}

void FactReader::put_fault(const std::string& key, std::string what, std::string value, std::string limit) {
    if (!error_) error_ = unreadable(fact_, key, std::move(what), std::move(value), std::move(limit));
}

const nlohmann::json& FactReader::take(const char* key) {
    taken_.insert(key);
    const auto found = body_.find(key);
    if (found != body_.end()) return *found;
    put_fault(key, "the value is missing", "", "every key of the fact");
    return nothing;
}

void FactReader::field(const char* key, std::string& text) {
    const nlohmann::json& value = take(key);
    if (value.is_string()) {
        text = value.get<std::string>();
    } else {
        put_fault(key, "not a text", shorten(value), "a JSON string");
    }
}

void FactReader::field(const char* key, bool& value) {
    const nlohmann::json& found = take(key);
    if (found.is_boolean()) {
        value = found.get<bool>();
    } else {
        put_fault(key, "not a yes or no", shorten(found), "true or false");
    }
}

void FactReader::field(const char* key, int& value) {
    const nlohmann::json& found = take(key);
    // As a double, so that no whole number is too large to be compared.
    const bool is_whole = found.is_number_integer() &&
                          found.get<double>() >= std::numeric_limits<int>::min() &&
                          found.get<double>() <= std::numeric_limits<int>::max();
    if (is_whole) {
        value = found.get<int>();
    } else {
        put_fault(key, "not a whole number", shorten(found), "a JSON number without a fraction");
    }
}

double FactReader::take_number(const char* key) {
    const nlohmann::json& value = take(key);
    if (value.is_number()) return value.get<double>();
    put_fault(key, "not a number", shorten(value), "a JSON number");
    return 0;
}

std::vector<std::string> FactReader::take_texts(const char* key) {
    const nlohmann::json& value = take(key);
    std::vector<std::string> texts;
    if (!value.is_array()) put_fault(key, "not a list", shorten(value), "a JSON array of strings");
    if (error_) return texts;
    for (const nlohmann::json& item : value) {
        if (!item.is_string()) {
            put_fault(key, "not a text in the list", shorten(item), "a JSON array of strings");
            return texts;
        }
        texts.push_back(item.get<std::string>());
    }
    return texts;
}

std::vector<nlohmann::json> FactReader::take_rows(const char* key) {
    const nlohmann::json& value = take(key);
    const bool fits = value.is_array() && std::all_of(value.begin(), value.end(),
                                                      [](const auto& item) { return item.is_object(); });
    if (!fits) put_fault(key, "not a list of rows", shorten(value), "a JSON array of objects");
    if (error_) return {};
    return value.get<std::vector<nlohmann::json>>();
}

void FactReader::field(const char* key, units::Day& day) {
    std::string text;
    field(key, text);
    if (error_) return;
    if (const auto parsed = units::parse_day(text)) {
        day = *parsed;
    } else {
        put_fault(key, parsed.error().what, text, parsed.error().limit);
    }
}

void FactReader::field(const char* key, std::optional<units::Day>& day) {
    std::string text;
    field(key, text);
    if (error_ || text.empty()) return;
    field(key, day.emplace());
}

void FactReader::field(const char* key, std::vector<units::Day>& days) {
    for (const std::string& text : take_texts(key)) {
        const auto day = units::parse_day(text);
        if (!day) return put_fault(key, day.error().what, text, day.error().limit);
        days.push_back(*day);
    }
}

void FactReader::finish() {
    for (const auto& [key, value] : body_.items()) {
        if (!taken_.contains(key))
            put_fault(key, "unknown key", shorten(value), "the keys of this kind of fact");
    }
}

}  // namespace mitefall::store
