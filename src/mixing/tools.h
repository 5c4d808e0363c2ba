#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "evidence/tables.h"
#include "units/amounts.h"

namespace mitefall::mixing {

/// What the marks of a tool count.
enum class Marks {
    millilitres,
    us_fluid_ounces,
    imperial_fluid_ounces,
    us_teaspoons,
    us_tablespoons,
    metric_teaspoons
};

[[nodiscard]] units::Volume one_of(Marks marks);
[[nodiscard]] std::string_view name_of(Marks marks);  ///< "US fl oz"
[[nodiscard]] bool is_spoon(Marks marks);             ///< one that is filled level, and measures itself

/// A measuring tool the keeper owns. It measures whole multiples of its graduation up to its capacity; a
/// spoon (spoons.h) measures itself, so its graduation is its capacity.
struct Tool {
    std::string name;
    units::Volume capacity;
    units::Volume graduation;
    units::Volume reading_error;  ///< most one measure may be off
    Marks marks = Marks::millilitres;
};

/// Reading error of half a graduation.
[[nodiscard]] Tool graduated_tool(std::string name, units::Volume capacity, units::Volume graduation);
/// Reading error as for a graduated tool; its marks count something else than millilitres.
[[nodiscard]] Tool graduated_tool(std::string name, double capacity, double graduation, Marks marks);

/// The syringes of the trade with their usual graduations: 1 mL/0.01, 3/0.1, 5/0.2, 10/0.5, 20/1.
[[nodiscard]] std::vector<Tool> usual_syringes();

/// "2 x 19 mL with the 30 mL cup".
struct Measure {
    Tool tool;
    units::Volume amount;
    int times = 1;
};

struct Measurement {
    std::vector<Measure> measures;  ///< larger tool first
    int steps = 0;
    units::Volume total;      ///< what the graduations add up to
    units::Volume low, high;  ///< with every measure off by its reading error
    units::Share deviation;   ///< |total - wanted| / wanted
    bool rough = false;       ///< the graduations leave more error than was asked for
};

struct Accuracy {
    units::Share wanted;  ///< error that is fine: deviation and reading together
    units::Share rough;   ///< error beyond which no recipe is given
};
[[nodiscard]] Accuracy usual_accuracy(const evidence::Tables& tables);

/// Refuses amounts, tools and errors that are not possible.
[[nodiscard]] base::Result<void> check_measuring(units::Volume wanted, std::span<const Tool> tools,
                                                 const Accuracy& accuracy);

/// The sequence of fewest measures, with at most two different tools, whose deviation and reading error
/// together stay within `wanted`. If there is none: the same with a deviation within `wanted` and all error
/// within `rough`, marked rough. Ties go to the smaller deviation, then the smaller reading error, then the
/// fewer different measures. If there is none either, the error says which tool would do.
[[nodiscard]] base::Result<Measurement> measure(units::Volume wanted, std::span<const Tool> tools,
                                                const Accuracy& accuracy);

/// The strength of `total` with the stock measured so, and its range.
struct MeasuredStrength {
    units::Strength nominal;
    units::Strength low;
    units::Strength high;
};
[[nodiscard]] base::Result<MeasuredStrength> strength_of(units::Strength stock, const Measurement& measured,
                                                         units::Volume total);

}  // namespace mitefall::mixing
