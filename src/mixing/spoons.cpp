#include "mixing/spoons.h"

#include <algorithm>
#include <array>
#include <string>

namespace mitefall::mixing {
namespace {

constexpr std::array known_spoons{
    Spoon{"1 US tbsp", "US tablespoon", Marks::us_tablespoons, 1},
    Spoon{"1/2 US tbsp", "US half-tablespoon", Marks::us_tablespoons, 0.5},
    Spoon{"1 US tsp", "US teaspoon", Marks::us_teaspoons, 1},
    Spoon{"1/2 US tsp", "US half-teaspoon", Marks::us_teaspoons, 0.5},
    Spoon{"1/4 US tsp", "US quarter-teaspoon", Marks::us_teaspoons, 0.25},
    Spoon{"5 mL", "5 mL teaspoon", Marks::metric_teaspoons, 1},
    Spoon{"2.5 mL", "2.5 mL half-teaspoon", Marks::metric_teaspoons, 0.5},
    Spoon{"1.25 mL", "1.25 mL quarter-teaspoon", Marks::metric_teaspoons, 0.25},
};

std::string all_spoons() {
    std::string list;
    for (const Spoon& spoon : known_spoons) list += (list.empty() ? "" : ", ") + std::string(spoon.written);
    return list;
}

}  // namespace

std::span<const Spoon> spoons_of_the_trade() { return known_spoons; }

const Spoon& whole_spoon(Marks marks) {
    return *std::find_if(known_spoons.begin(), known_spoons.end(),
                         [&](const Spoon& spoon) { return spoon.marks == marks && spoon.part == 1; });
}

base::Result<Spoon> read_spoon(std::string_view text) {
    for (const Spoon& spoon : known_spoons) {
        if (text == spoon.written || text == spoon.name) return spoon;
    }
    return base::fail(base::invalid("that spoon is not known", std::string(text), all_spoons(),
                                    "write it like \"1/2 US tsp\""));
}

Tool level_spoon(const Spoon& spoon, const evidence::Tables& tables) {
    const units::Volume volume = one_of(spoon.marks) * spoon.part;
    const double error = units::as_fraction(tables.part("spoon_error").value);
    return {std::string(spoon.name), volume, volume, volume * error, spoon.marks};
}

double part_of_spoon(const Tool& spoon) { return spoon.capacity / one_of(spoon.marks); }

}  // namespace mitefall::mixing
