#include "formats/text/next_check.h"

#include <fmt/format.h>

#include "formats/text/layout.h"
#include "formats/text/sure.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

std::string spot_text(const clearance::SpotCheck& spot) {
    if (spot.enclosures < 2) return {};
    if (!spot.to_check) {
        return fmt::format(
            "\nOne look over each of the {} enclosures with animals could still miss a light infestation in "
            "{} "
            "of them.\n",
            spot.enclosures, spot.with_mites);
    }
    return fmt::format(
        "\nA spot check: looking over {} of the {} enclosures with animals, picked by lot, shows a light "
        "infestation of {} of them with a chance of {}.\n",
        *spot.to_check, spot.enclosures, spot.with_mites, units::show_chance(spot.confidence));
}

}  // namespace

std::string next_check_text(const clearance::NextCheckAnswer& answer) {
    std::string text = heading("The checks that tell most");
    text +=
        "FINDS: the chance that it shows something, if mites are left anywhere. Soaks and wipes stand here "
        "only where the safety check permits them.\n\n";
    Table table({"FINDS", "CHECK", "WHERE", "DAY", "SURE BEFORE", "SURE IF CLEAN", "IN HAND", "WORK"});
    for (const clearance::NextCheck& check : answer.checks) {
        const clearance::CheckValue& value = check.value;
        table.add({units::show_chance(value.finds_if_left), std::string(name_of(value.candidate.method)),
                   names_of(check.enclosures), units::format_day_short(check.day), show_sure(value.before),
                   show_sure(value.if_clean), std::to_string(check.animals_in_hand),
                   units::show_number(60 * units::in_hours(check.work), 2) + " min"});
    }
    return text + table.text() + spot_text(answer.spot) + of_detection;
}

}  // namespace mitefall::formats
