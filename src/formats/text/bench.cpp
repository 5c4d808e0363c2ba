#include "formats/text/bench.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/text/layout.h"

namespace mitefall::formats {
namespace {

/// Decimals that write every multiple of `graduation` in full, four at most.
int decimals_of(double graduation) {
    for (int decimals = 0; decimals < 4; ++decimals) {
        const double scaled = graduation * std::pow(10, decimals);
        if (std::fabs(scaled - std::round(scaled)) < 1e-6) return decimals;
    }
    return 4;
}

std::string amount_text(const mixing::Measure& measure) {
    const units::Volume one = mixing::one_of(measure.tool.marks);
    return fmt::format("{:.{}f} {}", measure.amount / one, decimals_of(measure.tool.graduation / one),
                       mixing::name_of(measure.tool.marks));
}

std::string range_text(const mixing::MeasuredStrength& strength) {
    return fmt::format("{}, between {} and {} with every measure off by half a mark",
                       units::show(strength.nominal), units::show(strength.low), units::show(strength.high));
}

std::string first_steps(const mixing::PreDilution& first, const std::string& stock) {
    return fmt::format(
        "  1. In a clean cup: stock ({}), {}.\n"
        "  2. Water to that: {}. Shake hard. This is {} ({} to {}); label the cup.\n"
        "  3. At once, before it settles, from the cup into the bottle: ",
        stock, measurement_phrase(first.stock), measurement_phrase(first.water),
        units::show(first.strength.nominal), units::show(first.strength.low),
        units::show(first.strength.high));
}

constexpr int bench_columns = 60;
constexpr double decades = 3;  // 1 to 1,000 mg/L

int column_of(units::Strength strength) {
    const double mg_per_l = units::in_milligrams_per_litre(strength);
    if (!(mg_per_l > 1)) return 0;
    const double place = std::log10(mg_per_l) / decades * bench_columns;
    return std::clamp(static_cast<int>(std::lround(std::min(place, 1.0 * bench_columns))), 0, bench_columns);
}

void fill(std::string& line, int from, int to, char mark) {
    for (int i = from; i <= to; ++i) line[static_cast<std::size_t>(i)] = mark;
}

}  // namespace

std::string measure_phrase(const mixing::Measure& measure) {
    if (mixing::is_spoon(measure.tool.marks))
        return fmt::format("{} level {}{}", measure.times, measure.tool.name, measure.times == 1 ? "" : "s");
    return fmt::format("{} x {} with the {}", measure.times, amount_text(measure), measure.tool.name);
}

std::string measurement_phrase(const mixing::Measurement& measurement) {
    std::string text;
    for (const mixing::Measure& measure : measurement.measures)
        text += (text.empty() ? "" : ", then ") + measure_phrase(measure);
    return text;
}

std::string show_bottle(const records::StockId& from, units::Strength stock) {
    return from.empty() ? show_on_label(stock) : fmt::format("{}, {}", from.text(), show_on_label(stock));
}

std::string steps_text(const mixing::Measured& measured, const std::string& stock, units::Volume total,
                       units::Display display) {
    std::string text = measured.first ? "The stock is too strong for these tools, so it is thinned first:\n" +
                                            first_steps(*measured.first, stock)
                                      : fmt::format("  Stock ({}): ", stock);
    text += measurement_phrase(measured.measurement) + ".\n";
    text += fmt::format("  {}Fill the bottle up to {} with water.\n", measured.first ? "4. " : "",
                        units::show(total, display));
    if (measured.first) text += "  What is left in the cup is stock to dispose of, never down the drain.\n";
    if (measured.measurement.rough)
        text += "  The tools at hand are rough for this: a finer syringe would be better.\n";
    return text + "  That makes " + range_text(measured.resulting) + ".\n";
}

std::string round_text(const mixing::RoundBatch& round, units::Day good_until, units::Display display) {
    const int steps = mixing::trouble_of(round.measured).steps;
    return wrap(
        fmt::format("Easier to measure: {} in {} measure{}{}. That is {} more than you asked for; like "
                    "the rest it is good until {}, and is disposed of after that. Ask for that much to "
                    "see its steps.",
                    units::show(round.recipe.total, display), steps, steps == 1 ? "" : "s",
                    round.measured.first ? ", the stock thinned first" : "",
                    units::show(round.left_over, display), units::format_day(good_until)),
        "", "");
}

std::string show_within(units::Volume volume, units::Volume error) {
    const double ml = units::in_millilitres(volume);
    const double off = units::in_millilitres(error);
    if (!std::isfinite(ml) || !(off > 0) || !std::isfinite(off)) return units::show(volume, {});
    const int place = static_cast<int>(std::floor(std::log10(off)));  // of the first figure in doubt
    if (place >= 0) {
        const double step = std::pow(10, place);
        return fmt::format("{:.0f} mL", std::round(ml / step) * step);
    }
    return fmt::format("{:.{}f} mL", ml, std::min(-place, 6));
}

std::string show_stock(units::Volume stock, const std::optional<mixing::Measured>& measured) {
    if (!measured || measured->first) return units::show(stock, {});
    return show_within(stock, (measured->measurement.high - measured->measurement.low) / 2);
}

std::string unrounded_text(const mixing::Recipe& recipe) {
    const auto ml = [](units::Volume volume) {
        return units::show_number(units::in_millilitres(volume), 12);
    };
    return fmt::format("Unrounded: {} mL of stock and {} mL of water make {} mL of {} mg/L.\n",
                       ml(recipe.stock), ml(recipe.diluent), ml(recipe.total),
                       units::show_number(units::in_milligrams_per_litre(recipe.strength), 12));
}

std::string comparison_sentence(units::Strength strength, const mixing::Comparison& comparison) {
    switch (comparison.standing) {
        case mixing::Standing::weaker:
            return fmt::format("{} is weaker than any published spray ({}).", units::show(strength),
                               units::show(comparison.weakest));
        case mixing::Standing::published:
            return fmt::format("{} is within what has been published ({} to {}).", units::show(strength),
                               units::show(comparison.weakest), units::show(comparison.limit));
        case mixing::Standing::above: break;
    }
    if (comparison.perhaps) {
        return fmt::format("CAUTION: it may be up to {}, {} times the strongest published spray ({}).",
                           units::show(comparison.judged), units::show_number(comparison.multiple, 2),
                           units::show(comparison.strongest));
    }
    return fmt::format("CAUTION: {} is {} times the strongest published spray ({}).", units::show(strength),
                       units::show_number(comparison.multiple, 2), units::show(comparison.strongest));
}

std::string strength_picture(const mixing::MeasuredStrength& strength, const mixing::Comparison& comparison) {
    std::string bar(bench_columns + 1, '-');
    for (const int decade : {0, bench_columns / 3, 2 * bench_columns / 3, bench_columns})
        bar[static_cast<std::size_t>(decade)] = '|';
    fill(bar, column_of(comparison.weakest), column_of(comparison.strongest), '=');
    fill(bar, column_of(strength.low), column_of(strength.high), '~');
    bar[static_cast<std::size_t>(column_of(strength.nominal))] = '*';
    return picture(fmt::format("  1{:>20}{:>20}{:>22} mg/L\n  {}\n  = published   * this mix   ~ its range\n",
                               "10", "100", "1000", bar));
}

}  // namespace mitefall::formats
