#include "web/wishes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mitefall::web {
namespace {

using base::fail;
using base::Result;
using formats::Json;

constexpr double most_whole = 9'007'199'254'740'991;  ///< 2^53 - 1 (RFC 8259, 6)

}  // namespace

Members::Members(const Json& object) : object_(object) {
    if (!object.is_object()) fault("", "an object was expected", object.type_name(), "{...}");
}

const Json* Members::find(std::string_view key) {
    if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) asked_.emplace_back(key);
    if (!object_.is_object()) return nullptr;
    const auto member = object_.find(std::string(key));
    return member == object_.end() || member->is_null() ? nullptr : &*member;
}

void Members::fault(std::string_view key, const std::string& what, const std::string& value,
                    const std::string& limit) {
    if (fault_) return;
    fault_ = base::invalid(what, value, limit);
    fault_->where = std::string(key);
}

std::string Members::text(std::string_view key, std::string otherwise) {
    const Json* const member = find(key);
    if (member == nullptr) return otherwise;
    if (member->is_string()) return member->get<std::string>();
    fault(key, "a text was expected", member->dump(), "\"...\"");
    return otherwise;
}

double Members::number(std::string_view key, double otherwise, double low, double high) {
    const Json* const member = find(key);
    if (member == nullptr) return otherwise;
    const double value = member->is_number() ? member->get<double>() : std::nan("");
    if (value >= low && value <= high) return value;
    fault(key, "a number within the limits was expected", member->dump(), fmt::format("{} to {}", low, high));
    return otherwise;
}

std::uint64_t Members::whole(std::string_view key, std::uint64_t otherwise, const questions::Limits& limits) {
    const double value = number(key, static_cast<double>(otherwise), limits.low, limits.high);
    if (value == std::floor(value)) return static_cast<std::uint64_t>(value);
    fault(key, "a whole number was expected", fmt::format("{}", value),
          fmt::format("{} to {}", limits.low, limits.high));
    return otherwise;
}

bool Members::flag(std::string_view key, bool otherwise) {
    const Json* const member = find(key);
    if (member == nullptr) return otherwise;
    if (member->is_boolean()) return member->get<bool>();
    fault(key, "yes or no was expected", member->dump(), "true, false");
    return otherwise;
}

std::vector<std::string> Members::texts(std::string_view key) {
    const Json* const member = find(key);
    if (member == nullptr) return {};
    const bool fits = member->is_array() && std::all_of(member->begin(), member->end(),
                                                        [](const Json& one) { return one.is_string(); });
    if (fits) return member->get<std::vector<std::string>>();
    fault(key, "a list of texts was expected", member->dump(), "[\"...\", ...]");
    return {};
}

std::optional<std::string> Members::one_of(std::string_view key, const std::vector<std::string>& choices,
                                           const std::string& said) {
    if (choices.empty() || std::find(choices.begin(), choices.end(), said) != choices.end()) return said;
    fault(key, "not one of the choices", said, fmt::format("{}", fmt::join(choices, ", ")));
    return std::nullopt;
}

std::optional<questions::Value> Members::value(const questions::Saying& option) {
    using questions::Type;
    const std::string_view key = option.names.key;
    if (key.empty() || find(key) == nullptr) return std::nullopt;
    const questions::Limits limits = option.limits.value_or(questions::Limits{0, most_whole});
    switch (option.type) {
        case Type::number: return number(key, std::get<double>(option.otherwise), limits.low, limits.high);
        case Type::whole: return whole(key, std::get<std::uint64_t>(option.otherwise), limits);
        case Type::flag: return flag(key, false);
        case Type::text:
        case Type::choice: return one_of(key, option.choices, text(key));
        case Type::facts: return any(key).dump();
        default: break;
    }
    std::vector<std::string> names = texts(key);
    for (const std::string& name : names) {
        if (!one_of(key, option.choices, name)) return std::nullopt;
    }
    return names;
}

Json Members::any(std::string_view key) {
    const Json* const member = find(key);
    return member == nullptr ? Json(nullptr) : *member;
}

Result<void> Members::finish() const {
    if (fault_) return fail(*fault_);
    for (const auto& [key, value] : object_.items()) {
        if (std::find(asked_.begin(), asked_.end(), key) != asked_.end()) continue;
        base::Error error = base::invalid("nothing of that name is understood here", key,
                                          fmt::format("{}", fmt::join(asked_, ", ")));
        error.where = key;
        return fail(error);
    }
    return {};
}

std::optional<questions::Value> value_in(const Fields& query, const questions::Saying& option) {
    const std::string_view key = option.names.key;
    const auto found = find(query, key);
    if (key.empty() || !found) return std::nullopt;
    switch (option.type) {
        case questions::Type::flag: return !found->empty() && *found != "0" && *found != "false";
        case questions::Type::texts:
        case questions::Type::names:
        case questions::Type::days: return find_all(query, key);
        default: return *found;
    }
}

units::Display read_display(const std::string& units) {
    units::Display display;
    if (units == "us") display.system = units::UnitSystem::us;
    if (units == "imperial") display.system = units::UnitSystem::imperial;
    return display;
}

}  // namespace mitefall::web
