#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/text/layout.h"
#include "formats/text/text.h"

namespace mitefall::formats {
namespace {

using clearance::Sureness;
using records::CheckMethod;

constexpr std::size_t most_names = 6;
constexpr const char* of_detection =
    "How well a look shows mites is our assumption, nobody has published it (docs/model.md, 7).\n";

/// Below so many draws of even weight a range is hardly one.
constexpr double fewest_draws = 5;
constexpr const char* of_thin_draws =
    "On some of these days hardly any draw of what is not known would let every check be clean: the range "
    "says "
    "little there. More draws (--draws) help; so does asking again once the checks are on record.\n";

std::string_view name_of(CheckMethod method) {
    switch (method) {
        case CheckMethod::look_over: return "look over";
        case CheckMethod::soak: return "soak";
        case CheckMethod::wipe: return "wipe";
        case CheckMethod::paper_trap: return "paper trap";
    }
    return {};
}

/// A chance with as many digits as it needs: from the risk, where it is all but certain.
std::string show_sure(const Sureness& sure) { return units::show_chance(sure.clear.mean); }

std::string show_left(double risk) {
    if (risk >= 1) return "for certain";
    if (risk > 0.1) return units::show_chance(risk);
    if (!(risk > 0)) return "none";
    return fmt::format("1 in {}", units::show_number(1 / risk, 2));
}

std::string show_range(const Sureness& sure) {
    return units::show_chance(sure.clear.p10) + " to " + units::show_chance(sure.clear.p90);
}

std::string names_of(const std::vector<records::EnclosureId>& ids) {
    if (ids.size() > most_names) return fmt::format("{} and {} like it", ids.front().text(), ids.size() - 1);
    std::string text;
    for (const auto& id : ids) text += (text.empty() ? "" : ", ") + id.text();
    return text;
}

std::string show_time(units::Day origin, const std::optional<double>& time) {
    if (!time) return "not within these rounds";
    return units::format_day(origin + units::Days(static_cast<int>(std::lround(*time))));
}

std::string places_text(const clearance::CollectionAnswer& answer, const records::Collection& collection) {
    Table table({"PLACE", "SURE IT IS CLEAR", "RANGE", "MITES LEFT"});
    for (const clearance::SureOf& place : answer.places) {
        const bool is_room = !place.room.empty();
        table.add({is_room ? "floor and racks of " + collection.rooms.at(place.room).name
                           : names_of(place.enclosures),
                   show_sure(place.sure), show_range(place.sure), show_left(place.sure.risk.mean)});
    }
    return table.text();
}

std::string outlook_text(const clearance::CollectionAnswer& answer) {
    Table table(
        {"DAY", "IF EVERY ROUND IS CLEAN", "RANGE", "MITES LEFT", "IF NOBODY LOOKS", "ALL CLEAN SO FAR"});
    const auto& points = answer.outlook.points;
    for (const clearance::OutlookPoint& point : points) {
        table.add({show_time(answer.origin, point.time), show_sure(point.checked), show_range(point.checked),
                   show_left(point.checked.risk.mean), point.waited ? show_sure(*point.waited) : "-",
                   units::show_chance(point.all_clean)});
    }
    const bool thin = std::any_of(points.begin(), points.end(), [](const auto& point) {
        return point.checked.effective_draws < fewest_draws;
    });
    return table.text() + (thin ? of_thin_draws : "");
}

/// The day on which a level is reached, over the range of detection, then at its ends.
std::string days_text(const std::vector<clearance::Reached>& usual,
                      const std::vector<clearance::Reached>& low, const std::vector<clearance::Reached>& high,
                      units::Day origin) {
    Table table(
        {"SURE TO", "ON AVERAGE", "AT THE CAUTIOUS END", "IF LOOKS SHOW LITTLE", "IF LOOKS SHOW MUCH"});
    for (std::size_t i = 0; i < usual.size(); ++i) {
        table.add({units::show_chance(usual[i].level), show_time(origin, usual[i].at_mean),
                   show_time(origin, usual[i].at_cautious), show_time(origin, low[i].at_mean),
                   show_time(origin, high[i].at_mean)});
    }
    return table.text();
}

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

std::string clearance_text(const clearance::CollectionAnswer& answer, const records::Collection& collection) {
    const Sureness& now = answer.outlook.points.front().checked;
    std::string text = heading("How sure are we that it is over");
    text += fmt::format("No mite of any stage is left in the collection: {} (range {}; mites left: {}).\n",
                        show_sure(now), show_range(now), show_left(now.risk.mean));
    text += fmt::format("If looks show little: {}; if they show much: {}. {}",
                        show_sure(answer.at_low.points.front().checked),
                        show_sure(answer.at_high.points.front().checked), of_detection);
    text += fmt::format("Mites were last seen on {}; every check since then was clean.\n",
                        units::format_day(answer.last_sighting));
    if (answer.last_sighting == answer.today)
        text += "Mites were seen today: what is done against them today counts from tomorrow on.\n";
    text += heading("Place by place, the least sure first") + places_text(answer, collection);
    text += heading(fmt::format("What more looking would do: {} of {} enclosures every {} days",
                                name_of(answer.method), answer.looked_at.size(), answer.interval_days));
    if (answer.course_goes_on) text += "The treatments still to come of the adopted plan are counted in.\n";
    text += outlook_text(answer);
    text += heading("When, if every round is clean");
    return text +
           days_text(answer.outlook.checked, answer.at_low.checked, answer.at_high.checked, answer.origin);
}

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
