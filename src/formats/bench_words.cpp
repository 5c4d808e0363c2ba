#include "formats/bench_words.h"

#include <algorithm>

#include "mixing/spoons.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

using base::fail;
using base::Result;

mixing::Marks marks_of(const std::string& written) {
    if (written.find("US fl oz") != std::string::npos) return mixing::Marks::us_fluid_ounces;
    if (written.find("imp fl oz") != std::string::npos) return mixing::Marks::imperial_fluid_ounces;
    return mixing::Marks::millilitres;
}

/// "30 mL/1 mL": largest amount and marks.
Result<mixing::Tool> read_tool(const std::string& text, const std::string& option, const std::string& kind) {
    const auto slash = text.find('/');
    if (slash == std::string::npos) {
        return fail(base::invalid("a " + kind + " needs its largest amount and its marks", text,
                                  "AMOUNT/MARK", "write it like \"30 mL/1 mL\""));
    }
    const auto capacity = for_option(option, units::parse_volume(text.substr(0, slash)));
    if (!capacity) return fail(capacity.error());
    const auto mark = for_option(option, units::parse_volume(text.substr(slash + 1)));
    if (!mark) return fail(mark.error());
    if (!(*mark > units::Volume{}) || !(*capacity >= *mark)) {
        return fail(base::invalid("the marks of a " + kind + " lie between zero and its largest amount", text,
                                  "0 < MARK <= AMOUNT", "write it like \"30 mL/1 mL\""));
    }
    mixing::Tool tool = mixing::graduated_tool(text.substr(0, slash) + " " + kind, *capacity, *mark);
    tool.marks = marks_of(text.substr(slash));
    return tool;
}

Result<void> add_tools(const std::vector<std::string>& texts, const std::string& option,
                       const std::string& kind, std::vector<mixing::Tool>& tools) {
    for (const std::string& text : texts) {
        auto tool = read_tool(text, option, kind);
        if (!tool) return fail(tool.error());
        tools.push_back(std::move(*tool));
    }
    return {};
}

/// Each spoon once, however often it is named.
Result<void> add_spoons(const BenchWords& words, const evidence::Tables& tables,
                        std::vector<mixing::Tool>& tools) {
    std::vector<mixing::Spoon> spoons;
    if (words.us_spoons) spoons.push_back(mixing::whole_spoon(mixing::Marks::us_teaspoons));
    if (words.us_tablespoons) spoons.push_back(mixing::whole_spoon(mixing::Marks::us_tablespoons));
    if (words.metric_spoons) spoons.push_back(mixing::whole_spoon(mixing::Marks::metric_teaspoons));
    for (const std::string& text : words.spoons) {
        const auto spoon = for_option("--spoon", mixing::read_spoon(text));
        if (!spoon) return fail(spoon.error());
        spoons.push_back(*spoon);
    }
    for (const mixing::Spoon& spoon : spoons) {
        const bool is_there = std::any_of(tools.begin(), tools.end(),
                                          [&](const mixing::Tool& tool) { return tool.name == spoon.name; });
        if (!is_there) tools.push_back(mixing::level_spoon(spoon, tables));
    }
    return {};
}

Result<mixing::Package> read_package(const std::string& text) {
    const auto equals = text.find('=');
    const auto volume = for_option("--package", units::parse_volume(text.substr(0, equals)));
    if (!volume) return fail(volume.error());
    mixing::Package package{*volume, std::nullopt};
    if (equals == std::string::npos) return package;
    auto price = for_option("--package", mixing::Money::parse(text.substr(equals + 1)));
    if (!price) return fail(price.error());
    package.price = std::move(*price);
    return package;
}

}  // namespace

std::string show_on_label(units::Strength stock) {
    return units::show_number(units::in_milligrams_per_millilitre(stock), 4) + " mg/mL";
}

Result<worklist::Bench> read_bench(const BenchWords& words, const evidence::Tables& tables) {
    worklist::Bench bench;
    const std::string stock = words.stock.empty() ? "10 mg/mL" : words.stock;
    const auto strength = for_option("--stock", units::parse_strength(stock));
    if (!strength) return fail(strength.error());
    bench.stock.strength = *strength;
    const auto form = mixing::read_stock_form(words.stock_is);
    if (!form) return fail(form.error());
    bench.stock_is = *form;
    if (!words.expires.empty()) {
        const auto day = for_option("--expires", units::parse_day(words.expires));
        if (!day) return fail(day.error());
        bench.stock.expires = *day;
    }
    if (!words.no_syringes && words.syringes.empty()) bench.tools = mixing::usual_syringes();
    if (auto added = add_spoons(words, tables, bench.tools); !added) return fail(added.error());
    if (auto added = add_tools(words.syringes, "--syringe", "syringe", bench.tools); !added)
        return fail(added.error());
    if (auto added = add_tools(words.cups, "--cup", "cup", bench.tools); !added) return fail(added.error());
    bench.preserved = words.preserved;
    if (!words.bottle.empty()) {
        const auto volume = for_option("--bottle", units::parse_volume(words.bottle));
        if (!volume) return fail(volume.error());
        bench.bottle = *volume;
    }
    for (const std::string& text : words.packages) {
        auto package = read_package(text);
        if (!package) return fail(package.error());
        bench.packages.push_back(std::move(*package));
    }
    return bench;
}

}  // namespace mitefall::formats
