#include "formats/text/shares.h"

#include <fmt/format.h>

#include "formats/text/layout.h"
#include "formats/text/shopping.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

constexpr int figures_of_a_share = 2;
constexpr int figures_unrounded = 12;

std::string animals_text(const worklist::Shopping& shopping, bool exact) {
    if (shopping.animals.empty()) return {};
    Table table({"ANIMAL", "EACH TIME", "RANGE", "TIMES"});
    for (const worklist::AnimalNeed& need : shopping.animals) {
        table.add(
            {need.animal.text(), show_share(need.each.likely, exact) + " mL",
             fmt::format("{} to {} mL", show_share(need.each.low, exact), show_share(need.each.high, exact)),
             std::to_string(need.times)});
    }
    return table.text();
}

std::string enclosures_text(const worklist::Shopping& shopping, bool exact) {
    if (shopping.enclosures.empty()) return {};
    Table table({"ENCLOSURE", "EACH SPRAYING", "SPRAYINGS", "DAMP AGAIN", "DAYS"});
    for (const worklist::EnclosureNeed& need : shopping.enclosures) {
        table.add({need.enclosure.text(), show_share(need.each, exact) + " mL",
                   std::to_string(need.sprayings), show_share(need.upkeep, exact) + " mL a day",
                   std::to_string(need.damp_days)});
    }
    return table.text();
}

}  // namespace

std::string show_share(units::Volume volume, bool exact) {
    return units::show_number(units::in_millilitres(volume), exact ? figures_unrounded : figures_of_a_share);
}

std::string shares_text(const worklist::Shopping& shopping, bool exact) {
    return heading("Spray for each animal and enclosure, without spare") + animals_text(shopping, exact) +
           "\n" + enclosures_text(shopping, exact);
}

}  // namespace mitefall::formats
