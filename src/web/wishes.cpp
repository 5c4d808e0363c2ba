#include "web/wishes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "formats/words.h"

namespace mitefall::web {
namespace {

using base::fail;
using base::Result;
using formats::Json;

constexpr std::array<std::string_view, 7> day_names{"sun", "mon", "tue", "wed", "thu", "fri", "sat"};

Result<std::bitset<7>> read_days(const std::vector<std::string>& names) {
    std::bitset<7> days;
    for (const std::string& name : names) {
        const auto day = std::find(day_names.begin(), day_names.end(), name);
        if (day == day_names.end()) {
            base::Error error =
                base::invalid("there is no such day of the week", name, "sun, mon, tue, wed, thu, fri, sat");
            error.where = "days";
            return fail(error);
        }
        days.set(static_cast<std::size_t>(day - day_names.begin()));
    }
    return names.empty() ? std::bitset<7>().set() : days;
}

Result<plan::Prefer> read_preference(const std::string& text) {
    if (text == "burden") return plan::Prefer::burden;
    if (text == "work") return plan::Prefer::work;
    if (text == "cost") return plan::Prefer::cost;
    base::Error error = base::invalid("there is no such preference", text, "burden, work, cost");
    error.where = "prefer";
    return fail(error);
}

std::string first(const Fields& fields, std::string_view name) { return find(fields, name).value_or(""); }

bool is_set(const Fields& fields, std::string_view name) {
    const std::string value = first(fields, name);
    return !value.empty() && value != "0" && value != "false";
}

}  // namespace

Members::Members(const Json& object) : object_(object) {
    if (!object.is_object()) fault("", "an object was expected", object.type_name(), "{...}");
}

const Json* Members::find(std::string_view key) {
    asked_.emplace_back(key);
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

int Members::whole(std::string_view key, int otherwise, int low, int high) {
    const double value = number(key, otherwise, low, high);
    if (value == std::floor(value)) return static_cast<int>(value);
    fault(key, "a whole number was expected", fmt::format("{}", value), fmt::format("{} to {}", low, high));
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

Result<service::PlanOptions> read_plan_options(const Json& options) {
    Members members(options);
    service::PlanOptions read;
    read.horizon_days = members.number("horizon_days", read.horizon_days, 1, 365);
    read.target = members.number("target", read.target, 0.01, 0.99999);
    for (const std::string& enclosure : members.texts("only"))
        read.limits.only.insert(records::EnclosureId(enclosure));
    const auto days = read_days(members.texts("days"));
    const auto prefer = read_preference(members.text("prefer", "burden"));
    const std::string strength = members.text("strength");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    if (!days) return fail(days.error());
    if (!prefer) return fail(prefer.error());
    read.limits.free_days = *days;
    read.prefer = *prefer;
    if (strength.empty()) return read;
    const auto given = formats::for_option("strength", units::parse_strength(strength));
    if (!given) return fail(given.error());
    read.strength = *given;
    return read;
}

Result<service::ClearanceOptions> read_clearance_options(Members& members) {
    service::ClearanceOptions read;
    read.rounds = members.whole("rounds", read.rounds, 1, 26);
    read.interval_days = members.whole("every_days", read.interval_days, 1, 60);
    const std::string by = members.text("by", "look-over");
    if (const auto ok = members.finish(); !ok) return fail(ok.error());
    const auto method = records::from_text<records::CheckMethod>(by);
    if (!method) {
        base::Error error =
            base::invalid("there is no such way to look", by, records::list_texts<records::CheckMethod>());
        error.where = "by";
        return fail(error);
    }
    read.method = *method;
    return read;
}

formats::BenchWords read_bench_words(const Fields& fields) {
    formats::BenchWords words;
    if (const auto stock = find(fields, "stock")) words.stock = *stock;
    words.stock_is = first(fields, "stock_is");
    words.expires = first(fields, "expires");
    words.syringes = find_all(fields, "syringe");
    words.cups = find_all(fields, "cup");
    words.packages = find_all(fields, "package");
    words.bottle = first(fields, "bottle");
    words.preserved = is_set(fields, "preserved");
    words.us_spoons = is_set(fields, "us_spoons");
    words.us_tablespoons = is_set(fields, "us_tablespoons");
    words.metric_spoons = is_set(fields, "metric_spoons");
    words.no_syringes = is_set(fields, "no_syringes");
    return words;
}

formats::BenchWords read_bench_words(Members& members) {
    formats::BenchWords words;
    words.stock = members.text("stock", words.stock);
    words.stock_is = members.text("stock_is");
    words.expires = members.text("expires");
    words.syringes = members.texts("syringe");
    words.cups = members.texts("cup");
    words.packages = members.texts("package");
    words.bottle = members.text("bottle");
    words.preserved = members.flag("preserved", false);
    words.us_spoons = members.flag("us_spoons", false);
    words.us_tablespoons = members.flag("us_tablespoons", false);
    words.metric_spoons = members.flag("metric_spoons", false);
    words.no_syringes = members.flag("no_syringes", false);
    return words;
}

service::MixQuestion read_mix_question(const Fields& fields) {
    return {read_bench_words(fields),   first(fields, "batch"),      first(fields, "target"),
            first(fields, "made_with"), is_set(fields, "stop_read"), is_set(fields, "added")};
}

units::Display read_display(const std::string& units) {
    units::Display display;
    if (units == "us") display.system = units::UnitSystem::us;
    if (units == "imperial") display.system = units::UnitSystem::imperial;
    return display;
}

}  // namespace mitefall::web
