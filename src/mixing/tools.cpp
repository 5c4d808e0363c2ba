#include "mixing/tools.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "mixing/check_amounts.h"
#include "mixing/dilution.h"
#include "mixing/measure_search.h"
#include "units/text.h"

namespace mitefall::mixing {
namespace {

using base::fail;
using base::invalid;
using base::Result;

std::optional<base::Error> refuse_tool(const Tool& tool) {
    if (auto fault = refuse_volume(tool.capacity, "capacity of " + tool.name)) return fault;
    if (auto fault = refuse_volume(tool.graduation, "graduation of " + tool.name)) return fault;
    if (auto fault = refuse_volume(tool.reading_error, "reading error of " + tool.name)) return fault;
    if (tool.graduation > tool.capacity) {
        return invalid("the graduation of " + tool.name + " is larger than the tool",
                       units::show(tool.graduation, {}), units::show(tool.capacity, {}),
                       "correct the graduation");
    }
    if (!(tool.capacity / tool.graduation <= most_marks)) {
        return invalid("the marks of " + tool.name + " are finer than anybody can read",
                       units::show(tool.graduation, {}), fmt::format("{} marks on one tool", most_marks),
                       "enter the marks that are printed on it");
    }
    return std::nullopt;
}

std::optional<base::Error> refuse_accuracy(const Accuracy& accuracy) {
    const double wanted = units::as_fraction(accuracy.wanted);
    const double rough = units::as_fraction(accuracy.rough);
    if (wanted >= 0 && wanted <= rough && rough < 1) return std::nullopt;
    return invalid("the accepted measuring error is not possible", fmt::format("{} and {}", wanted, rough),
                   "0 <= wanted <= rough < 1", "correct the accepted error");
}

base::Error cannot_measure(units::Volume wanted, const Accuracy& accuracy) {
    // Reading errors of half a graduation within `wanted` need a graduation of at most 2 x wanted x volume.
    const units::Volume graduation = wanted * (2 * units::as_fraction(accuracy.wanted));
    return invalid(
        "these tools cannot measure that volume closely enough", units::show(wanted, {}),
        fmt::format("within {} %", units::show_number(units::as_fraction(accuracy.wanted) * 100, 3)),
        fmt::format("use a tool graduated in {} or finer, or mix a larger batch",
                    units::show(graduation, {})));
}

std::string counted(double millilitres) { return units::show_number(millilitres, 3) + " mL"; }

}  // namespace

Tool graduated_tool(std::string name, units::Volume capacity, units::Volume graduation) {
    return {std::move(name), capacity, graduation, graduation / 2};
}

Tool graduated_tool(std::string name, double capacity, double graduation, Marks marks) {
    Tool tool = graduated_tool(std::move(name), one_of(marks) * capacity, one_of(marks) * graduation);
    tool.marks = marks;
    return tool;
}

units::Volume one_of(Marks marks) {
    switch (marks) {
        case Marks::millilitres: return units::millilitres(1);
        case Marks::us_fluid_ounces: return units::us_fluid_ounces(1);
        case Marks::imperial_fluid_ounces: return units::imperial_fluid_ounces(1);
        case Marks::us_teaspoons: return units::us_teaspoons(1);
        case Marks::us_tablespoons: return units::us_tablespoons(1);
        case Marks::metric_teaspoons: return units::metric_teaspoons(1);
    }
    return units::millilitres(1);
}

std::string_view name_of(Marks marks) {
    switch (marks) {
        case Marks::millilitres: return "mL";
        case Marks::us_fluid_ounces: return "US fl oz";
        case Marks::imperial_fluid_ounces: return "imp fl oz";
        case Marks::us_teaspoons: return "US teaspoon";
        case Marks::us_tablespoons: return "US tablespoon";
        case Marks::metric_teaspoons: return "5 mL teaspoon";
    }
    return "mL";
}

bool is_spoon(Marks marks) {
    switch (marks) {
        case Marks::millilitres:
        case Marks::us_fluid_ounces:
        case Marks::imperial_fluid_ounces: return false;
        case Marks::us_teaspoons:
        case Marks::us_tablespoons:
        case Marks::metric_teaspoons: return true;
    }
    return false;
}

std::vector<Tool> usual_syringes() {
    std::vector<Tool> syringes;
    for (const auto& [capacity, graduation] :
         {std::pair{1.0, 0.01}, {3.0, 0.1}, {5.0, 0.2}, {10.0, 0.5}, {20.0, 1.0}}) {
        syringes.push_back(graduated_tool(counted(capacity) + " syringe", units::millilitres(capacity),
                                          units::millilitres(graduation)));
    }
    return syringes;
}

Accuracy usual_accuracy(const evidence::Tables& tables) {
    return {tables.part("measuring_error").value, tables.part("rough_measuring_error").value};
}

Result<void> check_measuring(units::Volume wanted, std::span<const Tool> tools, const Accuracy& accuracy) {
    if (auto fault = refuse_volume(wanted, "volume to measure")) return fail(*fault);
    if (auto fault = refuse_accuracy(accuracy)) return fail(*fault);
    if (tools.empty()) {
        return fail(
            invalid("there is no measuring tool", "", "at least one", "enter the syringes, spoons and cups"));
    }
    if (tools.size() > most_tools) {
        return fail(invalid("too many measuring tools", fmt::format("{}", tools.size()),
                            fmt::format("{} tools", most_tools), "enter those at hand"));
    }
    for (const Tool& tool : tools) {
        if (auto fault = refuse_tool(tool)) return fail(*fault);
    }
    return {};
}

base::Error too_many_marks() {
    return invalid("these tools have more marks than can be tried", "",
                   fmt::format("{} sequences of measures", Effort::usual),
                   "leave out the tools with the finest marks, or enter the marks that are printed on them");
}

Result<Measurement> measure(units::Volume wanted, std::span<const Tool> tools, const Accuracy& accuracy) {
    Effort effort;
    return measure(wanted, tools, accuracy, effort);
}

Result<Measurement> measure(units::Volume wanted, std::span<const Tool> tools, const Accuracy& accuracy,
                            Effort& effort) {
    if (auto sound = check_measuring(wanted, tools, accuracy); !sound) return fail(sound.error());
    const MeasureSearch search(wanted, tools, accuracy.wanted, effort);
    if (auto fine = search.fewest_steps(accuracy.wanted)) return *fine;
    if (auto rough = search.fewest_steps(accuracy.rough)) {
        rough->rough = true;
        return *rough;
    }
    if (effort.is_spent()) return fail(too_many_marks());
    return fail(cannot_measure(wanted, accuracy));
}

Result<MeasuredStrength> strength_of(units::Strength stock, const Measurement& measured,
                                     units::Volume total) {
    const auto nominal = strength_of(stock, measured.total, total);
    if (!nominal) return fail(nominal.error());
    // The bottle is filled to its mark, so only the stock varies; more than the bottle holds cannot go in.
    const auto at = [&](units::Volume volume) { return stock * (std::min(volume, total) / total); };
    return MeasuredStrength{*nominal, at(measured.low), at(measured.high)};
}

}  // namespace mitefall::mixing
