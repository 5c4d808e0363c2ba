#include "units/customary.h"

#include <fmt/format.h>

#include <algorithm>

namespace mitefall::units {
namespace {

// US and imperial: NIST Handbook 44 (2023), appendix C. Metric: as sold with kitchen scales; the metric cup
// and spoons are common practice.
constexpr std::array customary_units{
    CustomaryUnit{"fl oz",
                  {"fl oz", "fl. oz", "floz", "fluid ounce", "fluid ounces", "oz"},
                  ml_per_us_fluid_ounce,
                  ml_per_imperial_fluid_ounce,
                  0,
                  NamedMeasure::none},
    CustomaryUnit{
        "tsp", {"tsp", "teaspoon", "teaspoons", "tsps"}, ml_per_us_teaspoon, 0, 5, NamedMeasure::spoon},
    CustomaryUnit{"tbsp",
                  {"tbsp", "tablespoon", "tablespoons", "tbsps"},
                  3 * ml_per_us_teaspoon,
                  0,
                  15,
                  NamedMeasure::spoon},
    CustomaryUnit{"cup", {"cup", "cups"}, 8 * ml_per_us_fluid_ounce, 0, 250, NamedMeasure::vessel},
    CustomaryUnit{"pint",
                  {"pint", "pints", "pt", "pts"},
                  16 * ml_per_us_fluid_ounce,
                  20 * ml_per_imperial_fluid_ounce,
                  0,
                  NamedMeasure::vessel},
    CustomaryUnit{"quart",
                  {"quart", "quarts", "qt", "qts"},
                  ml_per_us_quart,
                  40 * ml_per_imperial_fluid_ounce,
                  0,
                  NamedMeasure::vessel},
    CustomaryUnit{"gallon",
                  {"gallon", "gallons", "gal", "gals"},
                  ml_per_us_gallon,
                  160 * ml_per_imperial_fluid_ounce,
                  0,
                  NamedMeasure::vessel},
};

/// "US", "imp" or "metric" in front of a unit.
struct Kind {
    std::string_view word;
    double CustomaryUnit::*millilitres;
    std::string_view shown;
};
constexpr std::array kinds{
    Kind{"us", &CustomaryUnit::us, "US"},
    Kind{"u.s.", &CustomaryUnit::us, "US"},
    Kind{"imp", &CustomaryUnit::imperial, "imp"},
    Kind{"imp.", &CustomaryUnit::imperial, "imp"},
    Kind{"imperial", &CustomaryUnit::imperial, "imp"},
    Kind{"uk", &CustomaryUnit::imperial, "imp"},
    Kind{"metric", &CustomaryUnit::metric, "metric"},
};

/// "US quart" (946 mL) or "imp quart" (1.14 L)
std::string each_kind(const CustomaryUnit& unit) {
    std::string text;
    for (const Kind& kind : kinds) {
        const double ml = unit.*kind.millilitres;
        const std::string one =
            fmt::format("\"{} {}\" ({})", kind.shown, unit.name, show(millilitres(ml), {}));
        if (ml > 0 && text.find(one) == std::string::npos) text += (text.empty() ? "" : " or ") + one;
    }
    return text;
}

}  // namespace

std::optional<Customary> find_customary(std::string_view written) {
    const Kind* kind = nullptr;
    for (const Kind& one : kinds) {
        if (written.starts_with(one.word) && written.substr(one.word.size()).starts_with(' ')) kind = &one;
    }
    const std::string_view name = kind == nullptr ? written : written.substr(kind->word.size() + 1);
    for (const CustomaryUnit& unit : customary_units) {
        if (std::find(unit.names.begin(), unit.names.end(), name) == unit.names.end() || name.empty())
            continue;
        return Customary{&unit, kind == nullptr ? 0 : unit.*kind->millilitres};
    }
    return std::nullopt;
}

std::string known_volumes() {
    std::string list = "mL, L";
    for (const CustomaryUnit& unit : customary_units) {
        for (const Kind& kind : kinds) {
            const std::string one = fmt::format(", {} {}", kind.shown, unit.name);
            if (unit.*kind.millilitres > 0 && list.find(one) == std::string::npos) list += one;
        }
    }
    return list;
}

base::Error ask_which(std::string_view text, const CustomaryUnit& unit, std::string_view written) {
    return base::invalid(fmt::format("\"{}\" means different volumes in different countries", written),
                         std::string(text), "US, imperial and metric measures differ",
                         "say which: " + each_kind(unit));
}

}  // namespace mitefall::units
