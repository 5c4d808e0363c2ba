#pragma once

#include <string>

#include "base/result.h"
#include "formats/words.h"
#include "records/facts.h"
#include "units/text.h"

// Turning option texts into values, with errors that name the option.
namespace mitefall::cli {

using formats::for_option;

/// One of the texts of an enumeration of the records.
template <class E>
base::Result<E> parse_choice(std::string_view option, const std::string& text) {
    if (const auto value = records::from_text<E>(text)) return *value;
    base::Error error = base::invalid("not one of the choices", text, records::list_texts<E>());
    error.where = std::string(option);
    return base::fail(std::move(error));
}

/// "28 C" by day and, unless empty, another temperature by night; relative humidity in percent.
inline base::Result<records::Climate> parse_climate(const std::string& day, const std::string& night,
                                                    double humidity) {
    const auto by_day = for_option("--temperature", units::parse_temperature(day));
    if (!by_day) return base::fail(by_day.error());
    const auto by_night = for_option("--night", units::parse_temperature(night.empty() ? day : night));
    if (!by_night) return base::fail(by_night.error());
    return records::Climate{*by_day, *by_night, units::relative_humidity_percent(humidity)};
}

}  // namespace mitefall::cli
