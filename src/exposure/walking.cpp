#include "exposure/walking.h"

#include <algorithm>
#include <numeric>

namespace mitefall::exposure {
namespace {

/// What a mite loose in a room does next. Rates per day.
struct Loose {
    double entering = 0;
    double crossing = 0;  ///< into one given adjoining room
    double dying = 0;
};

constexpr double lost_in_sight =
    1e-9;  // share of the mites still on foot below which the rest is not followed

/// Share of the mites let loose in `start` that end up in an enclosure of each room. Follows the crowd from
/// room to room; the share on foot shrinks with every crossing because some enter or die.
std::vector<double> end_up(const Places& places, const Loose& loose, std::size_t start) {
    std::vector<double> entered(places.rooms.size());
    std::vector<double> on_foot(places.rooms.size());
    on_foot[start] = 1;
    while (std::accumulate(on_foot.begin(), on_foot.end(), 0.0) > lost_in_sight) {
        std::vector<double> next(on_foot.size());
        for (std::size_t room = 0; room < on_foot.size(); ++room) {
            const double entering = places.enclosures_in[room].empty() ? 0 : loose.entering;
            const auto doors = static_cast<double>(places.adjoining[room].size());
            const double share = on_foot[room] / (entering + doors * loose.crossing + loose.dying);
            entered[room] += share * entering;
            for (const std::size_t other : places.adjoining[room]) next[other] += share * loose.crossing;
        }
        on_foot = std::move(next);
    }
    return entered;
}

Loose read_loose(const evidence::Tables& tables) {
    return {in_per_day(tables.rate("entering_rate").value),
            in_per_day(tables.rate("room_crossing_rate").value),
            1 / in_days(tables.time("unfed_adult_life").value)};
}

/// A mite has at least one way to go: even a lone enclosure can be left.
double neighbours_of(const Places& places, std::size_t room, double most) {
    const double others = static_cast<double>(places.enclosures_in[room].size()) - 1;
    return std::max(1.0, std::min(others, most));
}

}  // namespace

Walking::Walking(const Places& places, const evidence::Tables& tables) : reached_(places.rooms.size()) {
    const Loose loose = read_loose(tables);
    const double leaving = in_per_day(tables.rate("leaving_rate").value);
    const double most = as_number(tables.number("neighbours").value);
    const double wandering = as_number(tables.number("source_wandering_mites").value);
    for (std::size_t from = 0; from < places.rooms.size(); ++from) {
        std::vector<double> rates = end_up(places, loose, from);
        std::vector<double>& each = into_each_.emplace_back(rates);
        for (std::size_t to = 0; to < each.size(); ++to)
            each[to] /= std::max(1.0, static_cast<double>(places.enclosures_in[to].size()));
        for (std::size_t to = 0; to < rates.size(); ++to) {
            if (rates[to] <= 0) continue;
            reached_[from].push_back(to);
            rates[to] *= wandering * leaving * neighbours_of(places, from, most) /
                         static_cast<double>(places.enclosures_in[to].size());
        }
        rates_.push_back(std::move(rates));
    }
}

}  // namespace mitefall::exposure
