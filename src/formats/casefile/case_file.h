#pragma once

#include <string>
#include <string_view>
#include <variant>

#include "base/result.h"
#include "forecast/forecast.h"

namespace mitefall::formats {

/// A question to the forecast that stands on its own: places, mites, what is done and when
/// (docs/case-file.md).
struct CaseFile {
    std::string title;
    scenario::Scenario scenario;
    std::variant<forecast::KnownStart, forecast::SightedStart> start;
    double from = 0;           ///< days; the start, or the day of the sightings
    double to = 0;             ///< days; the horizon
    mites::Ensemble ensemble;  ///< the one given, with the file's parameters put in place
};

/// What it asks the forecast. The case must outlive it.
[[nodiscard]] forecast::ForecastRequest request_of(const CaseFile& given);

inline constexpr std::size_t most_case_bytes = 4UL << 20U;

/// Reads a case strictly: unknown keys, impossible values and cases the model cannot hold are refused. The
/// error's `where` is a JSON pointer, or line and column where the text is not JSON. Never throws.
[[nodiscard]] base::Result<CaseFile> read_case(std::string_view text, const mites::Ensemble& base);

}  // namespace mitefall::formats
