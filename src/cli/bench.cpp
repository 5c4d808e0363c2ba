#include "cli/bench.h"

#include <cmath>

#include "cli/parse.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

Result<mixing::Tool> read_cup(const std::string& text) {
    const auto slash = text.find('/');
    if (slash == std::string::npos) {
        return fail(base::invalid("a cup needs its largest amount and its marks", text, "AMOUNT/MARK",
                                  "write it like \"30 mL/1 mL\""));
    }
    const auto capacity = for_option("--cup", units::parse_volume(text.substr(0, slash)));
    if (!capacity) return fail(capacity.error());
    const auto mark = for_option("--cup", units::parse_volume(text.substr(slash + 1)));
    if (!mark) return fail(mark.error());
    if (!(*mark > units::Volume{}) || !(*capacity >= *mark)) {
        return fail(base::invalid("a cup's marks lie between zero and its largest amount", text,
                                  "0 < MARK <= AMOUNT"));
    }
    return mixing::graduated_tool(units::show(*capacity, {}) + " cup", *capacity, *mark);
}

Result<mixing::Money> read_price(const std::string& text) {
    const auto space = text.find(' ');
    const auto amount = for_option("--package", units::parse_number(text.substr(0, space)));
    if (!amount) return fail(amount.error());
    if (!(*amount >= 0 && *amount < 1e9)) return fail(base::invalid("not a price", text, "zero or more"));
    return mixing::Money::make(std::llround(*amount * 100),
                               space == std::string::npos ? "" : text.substr(space + 1));
}

Result<mixing::Package> read_package(const std::string& text) {
    const auto equals = text.find('=');
    const auto volume = for_option("--package", units::parse_volume(text.substr(0, equals)));
    if (!volume) return fail(volume.error());
    mixing::Package package{*volume, std::nullopt};
    if (equals == std::string::npos) return package;
    auto price = read_price(text.substr(equals + 1));
    if (!price) return fail(price.error());
    package.price = std::move(*price);
    return package;
}

}  // namespace

void BenchOptions::add_to(CLI::App& command) {
    command
        .add_option("--stock", stock,
                    "Strength on the label of the ivermectin, like \"10 mg/mL\" or \"1 % w/v\"")
        ->capture_default_str();
    command.add_option("--expires", expires, "Last day of use of the stock");
    command.add_option("--cup", cups, "A measuring cup: largest amount/marks, like \"30 mL/1 mL\"");
    command.add_flag("--us-spoons", us_spoons, "US teaspoons are at hand");
    command.add_flag("--metric-spoons", metric_spoons, "5 mL teaspoons are at hand");
    command.add_flag("--no-syringes", no_syringes, "No syringes (usual: 1, 3, 5, 10 and 20 mL)");
    command.add_option("--package", packages, "A size the stock is sold in, like \"50 mL=18.90 EUR\"");
}

Result<worklist::Bench> BenchOptions::read(const evidence::Tables& tables) const {
    worklist::Bench bench;
    const auto strength = for_option("--stock", units::parse_strength(stock));
    if (!strength) return fail(strength.error());
    bench.stock.strength = *strength;
    if (!expires.empty()) {
        const auto day = for_option("--expires", units::parse_day(expires));
        if (!day) return fail(day.error());
        bench.stock.expires = *day;
    }
    if (!no_syringes) bench.tools = mixing::usual_syringes();
    if (us_spoons) bench.tools.push_back(mixing::us_teaspoon(tables));
    if (metric_spoons) bench.tools.push_back(mixing::metric_teaspoon(tables));
    for (const std::string& text : cups) {
        auto cup = read_cup(text);
        if (!cup) return fail(cup.error());
        bench.tools.push_back(std::move(*cup));
    }
    for (const std::string& text : packages) {
        auto package = read_package(text);
        if (!package) return fail(package.error());
        bench.packages.push_back(std::move(*package));
    }
    return bench;
}

}  // namespace mitefall::cli
