#include "plan/rounding.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "scenario/climates.h"

namespace mitefall::plan {
namespace {

using scenario::PlaceIndex;
using scenario::Scenario;

constexpr std::size_t most_climates_exact = 12;
constexpr double likely = 0.1;  // chance of mites somewhere in a room that makes it near
constexpr double any_width = 1e3;
constexpr ClimateWidth coarsest_first[] = {{1, any_width}, {1, 2}, {0.5, 1}, {0.25, 0.5}};

/// Per place, whether mites are likely in its room; of an enclosure that stands alone, in itself.
std::vector<bool> near_mites(const Scenario& scenario, const belief::Belief& belief) {
    const std::vector<belief::PlaceBelief> mites = belief::mites_by_place(belief, scenario.places.size());
    const auto room_of = [&](PlaceIndex place) {
        const PlaceIndex room = scenario.places[place].room;
        return room == scenario::nowhere ? place : room;
    };
    std::vector<bool> near(scenario.places.size());
    for (PlaceIndex place = 0; place < near.size(); ++place)
        near[room_of(place)] = near[room_of(place)] || mites[place].any >= likely;
    for (PlaceIndex place = 0; place < near.size(); ++place) near[place] = near[room_of(place)];
    return near;
}

std::vector<double> width_by_place(const std::vector<bool>& near, ClimateWidth width) {
    std::vector<double> by_place;
    by_place.reserve(near.size());
    for (const bool is_near : near) by_place.push_back(is_near ? width.near : width.far);
    return by_place;
}

bool is_close(const base::Band& a, const base::Band& b) {
    return std::abs(a.mean - b.mean) <= rounding_allowed &&
           std::abs(a.p10 - b.p10) <= rounding_allowed_of_ends &&
           std::abs(a.p90 - b.p90) <= rounding_allowed_of_ends;
}

/// What the widths are tried on: a usual course and the most thorough one, of the widest scope.
std::vector<Schedule> trial_courses(const Setting& setting, PermitBook& permits) {
    const Scope widest = scopes_of(setting).back();
    const bool rooms = !empty_rooms_of(widest, setting).empty();
    std::vector<Schedule> schedules;
    for (Course course : {Course{3, usual_interval, {true, true, false}, widest, rooms},
                          Course{most_rounds, shortest_interval, {true, true, false}, widest, rooms}}) {
        course.choices.without_spray = setting.limits.without_spray;
        course.choices.soak_animals = setting.limits.without_spray;
        schedules.push_back(fit(assign(course, setting), setting, permits));
    }
    return schedules;
}

/// The trials of one search.
class Trials {
  public:
    Trials(const Setting& setting, const belief::Shortlist& few, double horizon_days, PermitBook& permits,
           const std::function<bool(double)>& progress)
        : setting_(setting),
          few_(few),
          horizon_days_(horizon_days),
          schedules_(trial_courses(setting, permits)),
          progress_(progress) {}

    /// Empty if cancelled.
    [[nodiscard]] std::vector<base::Band> chances(const Scenario& present) const {
        const Scorer scorer(setting_, present, few_.ensemble, few_.belief, horizon_days_,
                            branching::for_screening);
        std::vector<base::Band> chances;
        for (const Schedule& schedule : schedules_) {
            const auto scored = scorer.chance_of(schedule, 1, [&](double) { return goes_on(); });
            if (!scored) return {};
            chances.push_back(scored->clear);
        }
        return chances;
    }

    [[nodiscard]] bool goes_on() const { return !progress_ || progress_(0); }

  private:
    const Setting& setting_;
    const belief::Shortlist& few_;
    double horizon_days_;
    std::vector<Schedule> schedules_;
    const std::function<bool(double)>& progress_;
};

}  // namespace

std::optional<SearchedPresent> present_for_search(const Setting& setting, const belief::Shortlist& few,
                                                  double horizon_days, PermitBook& permits,
                                                  const std::function<bool(double)>& progress) {
    Scenario exact = present_of(setting);
    const std::size_t climates = scenario::climates_in(exact);
    if (climates <= most_climates_exact) return SearchedPresent{std::move(exact), std::nullopt};
    const Trials trials(setting, few, horizon_days, permits, progress);
    const std::vector<base::Band> wanted = trials.chances(exact);
    if (wanted.empty()) return std::nullopt;
    const std::vector<bool> near = near_mites(exact, few.belief);
    for (const ClimateWidth& width : coarsest_first) {
        Scenario rounded = scenario::with_rounded_climates(exact, width_by_place(near, width));
        const std::vector<base::Band> chances = trials.chances(rounded);
        if (chances.empty()) return std::nullopt;
        if (!std::equal(chances.begin(), chances.end(), wanted.begin(), is_close)) continue;
        const std::size_t told_apart = scenario::climates_in(rounded);
        return SearchedPresent{std::move(rounded), Rounding{climates, told_apart, 0}};
    }
    return SearchedPresent{std::move(exact), std::nullopt};
}

}  // namespace mitefall::plan
