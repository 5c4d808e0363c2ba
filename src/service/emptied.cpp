#include "service/emptied.h"

#include <algorithm>
#include <utility>

#include "clearance/outlook.h"
#include "service/changes.h"
#include "service/stand.h"

namespace mitefall::service {
namespace {

using base::Band;
using formats::EmptiedWay;
using records::Climate;
using records::EnclosureId;

constexpr int days_apart = 7;  // of those that are told

/// How it may stand. One that is as warm or as dry already has no such way.
struct Stood {
    statement::Statement how;
    Climate climate;
    bool apart = true;  ///< nothing walks in, and what walks out does not count as gone
};

std::vector<Stood> standings_of(const Climate& now, const evidence::Tables& tables) {
    const units::Temperature warmth = tables.temperature("emptied_warmth").value;
    const double percent = 100 * units::as_fraction(tables.part("emptied_dryness").value);
    const units::Humidity dryness = units::relative_humidity_percent(percent);
    const bool is_cooler = now.day < warmth || now.night < warmth;
    const bool is_damper = now.humidity > dryness;
    std::vector<Stood> all{{emptied::left_as_it_is(), now, false}, {emptied::set_apart(), now}};
    if (is_cooler) all.push_back({emptied::set_apart_warm(warmth), {warmth, warmth, now.humidity}});
    if (is_damper) all.push_back({emptied::set_apart_dry(percent), {now.day, now.night, dryness}});
    if (is_cooler && is_damper)
        all.push_back({emptied::set_apart_warm_and_dry(warmth, percent), {warmth, warmth, dryness}});
    return all;
}

std::optional<units::Day> first_day(const std::vector<units::Day>& days, const std::vector<Band>& clear,
                                    double Band::*end, double target) {
    for (std::size_t i = 0; i < days.size(); ++i) {
        if (clear[i].*end >= target) return days[i];
    }
    return std::nullopt;
}

/// The first is the wait as it is; of the others those stay that are sooner, or surer at the end where none
/// is there in time.
void keep_the_sooner(std::vector<EmptiedWay>& ways) {
    const EmptiedWay as_it_is = ways.front();
    const auto is_sooner = [&](const EmptiedWay& way) {
        if (way.from && as_it_is.from) return *way.from < *as_it_is.from;
        return way.from.has_value() || (!as_it_is.from && way.clear.back().mean > as_it_is.clear.back().mean);
    };
    ways.erase(std::remove_if(std::next(ways.begin()), ways.end(),
                              [&](const EmptiedWay& way) { return !is_sooner(way); }),
               ways.end());
}

class EmptiedWriter {
  public:
    /// `setting` outlives it.
    EmptiedWriter(const Situation& situation, const plan::Setting& setting, const EmptiedOptions& options)
        : situation_(situation), options_(options), stand_(setting) {
        const auto horizon = static_cast<int>(options.horizon_days);
        for (int day = 0; day <= horizon; day += days_apart) {
            days_.push_back(setting.today + units::Days(day));
            times_.push_back(stand_.today() + static_cast<double>(day));
        }
    }

    [[nodiscard]] Result<formats::EmptiedView> write() const {
        const EnclosureId id(options_.enclosure);
        const auto believed = situation_.believed({options_.draws, options_.seed}, part(0, 0.2));
        if (!believed) return fail(believed.error());
        const auto& tables = situation_.knowledge().tables;
        const auto standings = standings_of(situation_.collection().enclosures.at(id).climate, tables);
        formats::EmptiedView view{id, false, options_.target, days_, {}, {}};
        for (std::size_t i = 0; i < standings.size(); ++i) {
            const double begin = 0.2 + 0.8 * static_cast<double>(i) / static_cast<double>(standings.size());
            auto way = way_of(standings[i], **believed,
                              part(begin, begin + 0.8 / static_cast<double>(standings.size())));
            if (!way) return fail(cancelled());
            view.ways.push_back(std::move(*way));
        }
        keep_the_sooner(view.ways);
        view.at_once = {emptied::heated_through(tables.temperature("heat_objects_temperature").value,
                                                tables.time("heat_objects_time").value),
                        emptied::frozen_through(tables.temperature("freeze_temperature").value,
                                                tables.time("freeze_time").value)};
        return view;
    }

  private:
    [[nodiscard]] clearance::Progress part(double begin, double end) const {
        return part_of(options_.progress, begin, end);
    }

    [[nodiscard]] std::optional<EmptiedWay> way_of(const Stood& stands, const Believed& believed,
                                                   const clearance::Progress& progress) const {
        clearance::Standing standing = stand_.with(believed);
        const scenario::PlaceIndex place = stand_.place_of(EnclosureId(options_.enclosure));
        scenario::Scenario scenario = clearance::with_events(
            *standing.scenario, {{standing.today, scenario::ClimateChange{place, stands.climate}}});
        if (stands.apart) scenario.places[place].room = scenario::nowhere;
        standing.scenario = &scenario;
        const auto sure = clearance::sure_of_place_by_day(standing, place, times_, progress);
        if (!sure) return std::nullopt;
        EmptiedWay way{stands.how, {}, {}, {}};
        for (const clearance::Sureness& on_day : *sure) way.clear.push_back(on_day.clear);
        way.from = first_day(days_, way.clear, &Band::mean, options_.target);
        way.careful = first_day(days_, way.clear, &Band::p10, options_.target);
        return way;
    }

    const Situation& situation_;
    const EmptiedOptions& options_;
    Stand stand_;
    std::vector<units::Day> days_;
    std::vector<double> times_;
};

Result<formats::EmptiedView> told_of(const Situation& situation, const EmptiedOptions& options) {
    const auto setting = situation.setting_of_wait();
    if (!setting) return fail(setting.error());
    return EmptiedWriter(situation, *setting, options).write();
}

}  // namespace

Result<formats::EmptiedView> emptied_of(const Situation& situation, const EmptiedOptions& options) {
    const EnclosureId id(options.enclosure);
    const records::Collection& today = situation.collection();
    if (!today.enclosures.contains(id))
        return fail({ErrorKind::not_found,
                     "there is no enclosure of that name",
                     options.enclosure,
                     {},
                     "look it up among the enclosures",
                     {}});
    const Change change = emptying(today, id);
    if (change.facts.empty()) return told_of(situation, options);
    auto view = told_of(*with(change, situation), options);
    if (view) view->supposed = true;
    return view;
}

}  // namespace mitefall::service
