#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/error.h"
#include "records/facts.h"

namespace mitefall::store {

/// The archive that writes the fields of one fact into a JSON object. Remembers the first field JSON cannot
/// hold.
class FactWriter {
  public:
    void field(const char* key, const std::string& text) { body_[key] = text; }
    void field(const char* key, bool value) { body_[key] = value; }
    void field(const char* key, int value) { body_[key] = value; }
    template <class T>
    void later_field(const char* key, const T& value) {
        if (value != T{}) field(key, value);
    }
    void field(const char* key, units::Mass mass) { put_number(key, in_grams(mass)); }
    void field(const char* key, units::Strength strength) {
        put_number(key, in_milligrams_per_litre(strength));
    }
    void field(const char* key, units::Volume volume) { put_number(key, in_millilitres(volume)); }
    void field(const char* key, units::Day day);
    void field(const char* key, units::Area area) { put_number(key, in_square_centimetres(area)); }
    void field(const char* key, units::Temperature temperature) { put_number(key, in_celsius(temperature)); }
    void field(const char* key, units::Humidity humidity) { put_number(key, in_percent(humidity)); }
    void field(const char* key, const std::vector<units::Day>& days);

    template <class Kind>
    void field(const char* key, const base::Id<Kind>& id) {
        body_[key] = id.text();
    }

    template <class Kind>
    void field(const char* key, const std::vector<base::Id<Kind>>& ids) {
        body_[key] = nlohmann::json::array();
        for (const auto& id : ids) body_[key].push_back(id.text());
    }

    template <class E>
    requires std::is_enum_v<E>
    void field(const char* key, const std::vector<E>& values) {
        body_[key] = nlohmann::json::array();
        for (const E value : values) body_[key].push_back(std::string(records::to_text(value)));
    }

    /// Only where there is one: it is a later field.
    template <class T>
    void field(const char* key, const std::optional<T>& value) {
        if (value) field(key, *value);
    }

    /// Rows with fields of their own.
    template <class Row>
    void field(const char* key, const std::vector<Row>& rows) {
        body_[key] = nlohmann::json::array();
        for (const Row& row : rows) {
            FactWriter one;
            records::list_fields(one, row);
            if (one.error()) put_failed(*one.error());
            body_[key].push_back(one.body());
        }
    }

    template <class E>
    requires std::is_enum_v<E>
    void field(const char* key, E value) { body_[key] = std::string(records::to_text(value)); }

    [[nodiscard]] const nlohmann::json& body() const { return body_; }
    [[nodiscard]] const std::optional<base::Error>& error() const { return error_; }

  private:
    /// The day as text, if the journal can hold it.
    std::string checked_day(units::Day day);
    void put_number(const char* key, double value);
    void put_failed(base::Error error);

    nlohmann::json body_ = nlohmann::json::object();
    std::optional<base::Error> error_;
};

}  // namespace mitefall::store
