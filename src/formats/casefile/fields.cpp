#include "formats/casefile/fields.h"

#include <fmt/format.h>

#include <cmath>

#include "units/text.h"

namespace mitefall::formats {
namespace {

const Json& empty_object() {
    static const Json empty = Json::object();
    return empty;
}

}  // namespace

void Fault::note(base::Error error, std::string pointer) {
    if (error_) return;
    error.where = pointer.empty() ? "whole file" : std::move(pointer);
    error_ = std::move(error);
}

bool Range::holds(double value) const {
    const bool above = above_low ? value > low : value >= low;
    return above && value <= high && (!whole || value == std::floor(value));
}

std::string Range::text() const {
    const std::string least = units::show_number(low, 9);
    const std::string most = units::show_number(high, 9);
    const std::string kind = whole ? "whole number, " : "";
    return kind + (above_low ? fmt::format("above {}, at most {}", least, most)
                             : fmt::format("{} to {}", least, most));
}

std::string shown(const Json& value) {
    const std::string text = value.is_structured()
                                 ? value.type_name()
                                 : value.dump(-1, ' ', false, Json::error_handler_t::replace);
    return text.substr(0, 60);
}

Fields::Fields(const Json& object, std::string pointer, Fault& fault)
    : object_(object.is_object() ? object : empty_object()), pointer_(std::move(pointer)), fault_(fault) {
    if (object.is_object()) return;
    fault_.note(base::invalid("an object is needed here", shown(object), "{ ... }", "write keys and values"),
                pointer_);
}

const Json* Fields::find(std::string_view key) {
    known_.emplace(key);
    const auto found = object_.find(std::string(key));
    return found == object_.end() ? nullptr : &*found;
}

const Json* Fields::need(std::string_view key) {
    const Json* const value = find(key);
    if (value == nullptr) {
        fault_.note(base::invalid("a key is missing", std::string(key), "it is needed here", "add it"),
                    pointer(key));
    }
    return value;
}

double Fields::checked(std::string_view key, const Json& value, Range range) {
    if (!value.is_number()) {
        refuse(key, "a number is needed here", shown(value), range.text());
        return range.low;
    }
    const auto number = value.get<double>();
    if (range.holds(number)) return number;
    refuse(key, "the number is outside what is possible", shown(value), range.text());
    return range.low;
}

double Fields::number(std::string_view key, Range range) {
    const Json* const value = need(key);
    return value == nullptr ? range.low : checked(key, *value, range);
}

double Fields::number_or(std::string_view key, double otherwise, Range range) {
    const Json* const value = find(key);
    return value == nullptr ? otherwise : checked(key, *value, range);
}

std::string Fields::text(std::string_view key) {
    const Json* const value = need(key);
    if (value == nullptr) return {};
    if (value->is_string()) return value->get<std::string>();
    refuse(key, "a text is needed here", shown(*value), "a text in quotes");
    return {};
}

void Fields::refuse(std::string_view key, std::string what, std::string value, std::string limit) {
    fault_.note(
        base::invalid(std::move(what), std::move(value), std::move(limit), "correct it (docs/case-file.md)"),
        pointer(key));
}

std::string Fields::pointer(std::string_view key) const { return pointer_to(pointer_, key); }

void Fields::finish() {
    for (const auto& item : object_.items()) {
        if (known_.contains(item.key())) continue;
        std::string list;
        for (const std::string& key : known_) list += (list.empty() ? "" : ", ") + key;
        refuse(item.key(), "no such key belongs here", item.key(), list);
        return;
    }
}

}  // namespace mitefall::formats
