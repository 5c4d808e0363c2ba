#pragma once

#include <rapidcheck.h>

#include <bit>
#include <cmath>

#include "records/facts.h"

// Facts of every kind with arbitrary contents: any text that is UTF-8, any finite number, whether it makes
// sense or not.
namespace mitefall::store {

inline std::string encode_letter(std::uint32_t point) {
    const auto byte = [](std::uint32_t bits) { return static_cast<char>(static_cast<unsigned char>(bits)); };
    if (point < 0x80) return {byte(point)};
    if (point < 0x800) return {byte(0xC0U | point >> 6U), byte(0x80U | (point & 0x3FU))};
    if (point < 0x10000) {
        return {byte(0xE0U | point >> 12U), byte(0x80U | (point >> 6U & 0x3FU)),
                byte(0x80U | (point & 0x3FU))};
    }
    return {byte(0xF0U | point >> 18U), byte(0x80U | (point >> 12U & 0x3FU)),
            byte(0x80U | (point >> 6U & 0x3FU)), byte(0x80U | (point & 0x3FU))};
}

/// Includes NUL, quotes, control characters and letters of every length; no surrogates (RFC 3629, section 3).
inline std::string any_text() {
    std::string text;
    for (const std::uint32_t raw :
         *rc::gen::container<std::vector<std::uint32_t>>(rc::gen::inRange<std::uint32_t>(0, 0x10FFFF))) {
        const std::uint32_t point = raw % 4 == 0 ? raw : raw % 0x100;
        text += encode_letter(point >= 0xD800 && point <= 0xDFFF ? 0x2603 : point);
    }
    return text;
}

inline double any_number() {
    if (*rc::gen::inRange(0, 4) == 0) {
        return *rc::gen::element(0.0, -0.0, 0.1, 1.0 / 3.0, 5e-324, 2.2250738585072014e-308,
                                 1.7976931348623157e308, 1e22, 5.0);
    }
    const double number = std::bit_cast<double>(*rc::gen::arbitrary<std::uint64_t>());
    return std::isfinite(number) ? number : 0.5;
}

inline units::Day any_day() { return units::Day(units::Days(*rc::gen::inRange(-25567, 84000))); }
inline bool any_flag() { return *rc::gen::arbitrary<bool>(); }

template <class E>
E any_of() {
    constexpr auto all = records::all_of<E>();
    return all[*rc::gen::inRange<std::size_t>(0, all.size())];
}

/// The archive (records/facts/fact.h) that puts anything into every field.
class AnyFields {
  public:
    template <class T>
    void field(records::Key, T& value) {
        put(value);
    }
    template <class T>
    void later_field(records::Key, T& value) {
        put(value);
    }

  private:
    static void put(std::string& text) { text = any_text(); }
    static void put(bool& flag) { flag = any_flag(); }
    static void put(int& number) { number = *rc::gen::inRange(0, 9); }
    static void put(units::Day& day) { day = any_day(); }
    static void put(units::Mass& mass) { mass = units::grams(any_number()); }
    static void put(units::Strength& strength) { strength = units::milligrams_per_litre(any_number()); }
    static void put(units::Volume& volume) { volume = units::millilitres(any_number()); }
    static void put(units::Area& area) { area = units::square_centimetres(any_number()); }
    static void put(units::Temperature& temperature) { temperature = units::celsius(any_number()); }
    static void put(units::Humidity& humidity) { humidity = units::relative_humidity_percent(any_number()); }
    template <class Kind>
    static void put(base::Id<Kind>& id) {
        id = base::Id<Kind>(any_text());
    }
    template <records::Choice E>
    static void put(E& value) {
        value = any_of<E>();
    }
    template <class T>
    static void put(std::optional<T>& value) {
        value.reset();
        if (any_flag()) put(value.emplace());
    }
    template <class T>
    static void put(std::vector<T>& rows) {
        rows.resize(static_cast<std::size_t>(*rc::gen::inRange(0, 5)));
        for (T& row : rows) put(row);
    }
    template <records::Described<AnyFields> Row>
    static void put(Row& row) {
        AnyFields fields;
        records::list_fields(fields, row);
    }
};

constexpr std::size_t kinds_of_fact = std::variant_size_v<records::Fact>;

template <std::size_t Index = 0>
records::Fact any_fact(std::size_t kind) {
    if constexpr (Index + 1 < kinds_of_fact) {
        if (kind != Index) return any_fact<Index + 1>(kind);
    }
    std::variant_alternative_t<Index, records::Fact> fact;
    AnyFields fields;
    records::list_fields(fields, fact);
    return fact;
}

}  // namespace mitefall::store
