#include "formats/text/release.h"

#include <fmt/format.h>

#include "formats/text/after.h"
#include "formats/text/layout.h"
#include "formats/text/sure.h"
#include "units/text.h"

namespace mitefall::formats {

using clearance::Sureness;

std::string release_text(const clearance::ReleaseAnswer& answer) {
    const Sureness& now = answer.release.points.front().none;
    std::string text = heading(
        fmt::format("{} in quarantine since {}", answer.animal.text(), units::format_day(answer.arrived)));
    text += fmt::format(
        "It brought no mite that lives on: {} (range {}); before anybody looked: {}. Clean checks on record: "
        "{}.\n",
        show_sure(now), show_range(now), units::show_chance(answer.release.prior), answer.clean_checks);
    text += fmt::format("If looks show little: {}; if they show much: {}. {}",
                        show_sure(answer.at_low.points.front().none),
                        show_sure(answer.at_high.points.front().none), of_detection);
    if (answer.mites_elsewhere)
        text +=
            "Mites were seen elsewhere in the collection since it came. This answer is only about those it "
            "may have "
            "brought.\n";
    text += "This is about mites alone. What a quarantine also waits for, and what a veterinarian tests:\n" +
            told_text(answer.others);
    text += fmt::format(
        "\nWhen it may leave, looked over every {} days and always clean, and not before the usual {} "
        "days:\n",
        answer.interval_days, (answer.usual_from - answer.arrived).count());
    text += days_text(answer.release.no_sooner, answer.at_low.no_sooner, answer.at_high.no_sooner,
                      answer.arrived);
    text += fmt::format("\nThe usual quarantine ends between {} and {}.",
                        units::format_day(answer.usual_from), units::format_day(answer.usual_to));
    text += " By the chance alone it would be:\n";
    return text + days_text(answer.release.by_chance, answer.at_low.by_chance, answer.at_high.by_chance,
                            answer.arrived);
}

}  // namespace mitefall::formats
