#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/error.h"
#include "records/facts.h"

namespace mitefall::store {

/// The archive that fills the fields of one fact from a JSON object. Every key must be there, but for those
/// that came later, with the right type, and no other. Remembers the first fault; what is read after it does
/// not count.
class FactReader {
  public:
    FactReader(records::FactId fact, const nlohmann::json& body) : fact_(fact), body_(body) {}

    void field(const char* key, std::string& text);
    void field(const char* key, bool& value);
    void field(const char* key, int& value);
    template <class T>
    void later_field(const char* key, T& value) {
        if (body_.contains(key)) field(key, value);
    }
    void field(const char* key, units::Mass& mass) { mass = units::grams(take_number(key)); }
    void field(const char* key, units::Strength& strength) {
        strength = units::milligrams_per_litre(take_number(key));
    }
    void field(const char* key, units::Volume& volume) { volume = units::millilitres(take_number(key)); }
    void field(const char* key, units::Day& day);
    void field(const char* key, units::Area& area) { area = units::square_centimetres(take_number(key)); }
    void field(const char* key, units::Temperature& temperature) {
        temperature = units::celsius(take_number(key));
    }
    void field(const char* key, units::Humidity& humidity) {
        humidity = units::relative_humidity_percent(take_number(key));
    }
    void field(const char* key, std::vector<units::Day>& days);

    template <class Kind>
    void field(const char* key, base::Id<Kind>& id) {
        std::string text;
        field(key, text);
        id = base::Id<Kind>(std::move(text));
    }

    template <class Kind>
    void field(const char* key, std::vector<base::Id<Kind>>& ids) {
        for (std::string& text : take_texts(key)) ids.emplace_back(std::move(text));
    }

    template <class E>
    requires std::is_enum_v<E>
    void field(const char* key, std::vector<E>& values) {
        for (const std::string& text : take_texts(key)) take_choice(key, text, values.emplace_back());
    }

    /// An empty text says there is none.
    template <class E>
    requires std::is_enum_v<E>
    void field(const char* key, std::optional<E>& value) {
        std::string text;
        field(key, text);
        if (error_ || text.empty()) return;
        field(key, value.emplace());
    }

    void field(const char* key, std::optional<units::Day>& day);

    /// Rows with fields of their own, each complete.
    template <class Row>
    void field(const char* key, std::vector<Row>& rows) {
        for (const nlohmann::json& item : take_rows(key)) {
            FactReader one(fact_, item);
            Row& row = rows.emplace_back();
            records::list_fields(one, row);
            one.finish();
            if (one.error() && !error_) error_ = one.error();
        }
    }

    template <class E>
    requires std::is_enum_v<E>
    void field(const char* key, E& value) {
        std::string text;
        field(key, text);
        if (!error_) take_choice(key, text, value);
    }

    /// Refuses keys nobody asked for. Call once, after all fields.
    void finish();

    [[nodiscard]] const std::optional<base::Error>& error() const { return error_; }

  private:
    /// The value under the key; null, with the fault noted, if there is none.
    const nlohmann::json& take(const char* key);
    double take_number(const char* key);
    template <class E>
    void take_choice(const char* key, const std::string& text, E& value) {
        if (const auto known = records::from_text<E>(text)) {
            value = *known;
        } else {
            put_fault(key, "no such choice", text, "one of " + records::list_texts<E>());
        }
    }
    std::vector<std::string> take_texts(const char* key);
    /// The list of objects under the key; empty, with the fault noted, if it is none.
    std::vector<nlohmann::json> take_rows(const char* key);
    void put_fault(const std::string& key, std::string what, std::string value, std::string limit);

    records::FactId fact_;
    const nlohmann::json& body_;
    std::set<std::string, std::less<>> taken_;
    std::optional<base::Error> error_;
};

/// The error of a fact that cannot be read: names the entry and the key.
[[nodiscard]] base::Error unreadable(records::FactId fact, const std::string& key, std::string what,
                                     std::string value, std::string limit);

}  // namespace mitefall::store
