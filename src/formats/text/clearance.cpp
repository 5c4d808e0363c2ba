#include "formats/text/clearance.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/layout.h"
#include "formats/text/sure.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

using clearance::Sureness;

/// Below so many draws of even weight a range is hardly one.
constexpr double fewest_draws = 5;
constexpr const char* of_thin_draws =
    "On some of these days hardly any draw of what is not known would let every check be clean: the range "
    "says "
    "little there. More draws (--draws) help; so does asking again once the checks are on record.\n";

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

}  // namespace

std::string clearance_text(const clearance::CollectionAnswer& answer, const records::Collection& collection) {
    const Sureness& now = answer.outlook.points.front().checked;
    std::string text = heading(answer.last_sighting ? "How sure are we that it is over"
                                                    : "How sure are we that nothing came in");
    text += fmt::format("No mite of any stage is left in the collection: {} (range {}; mites left: {}).\n",
                        show_sure(now), show_range(now), show_left(now.risk.mean));
    text += fmt::format("If looks show little: {}; if they show much: {}. {}",
                        show_sure(answer.at_low.points.front().checked),
                        show_sure(answer.at_high.points.front().checked), of_detection);
    text += answer.last_sighting
                ? fmt::format("Mites were last seen on {}; every check since then was clean.\n",
                              units::format_day(*answer.last_sighting))
                : "No mite was seen lately: what may have come in unseen is all there is to be "
                  "sure of (\"origin\" tells the ways).\n";
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

}  // namespace mitefall::formats
