#include "clearance/outlook.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "base/contract.h"
#include "scenario/actions.h"

namespace mitefall::clearance {
namespace {

using base::expects;
using scenario::Event;
using scenario::Scenario;

Scenario with_rounds(const Scenario& scenario, const Rounds& rounds) {
    std::vector<Event> checks;
    for (int round = 0; round < rounds.count; ++round) {
        for (const scenario::PlaceIndex place : rounds.places)
            checks.push_back(
                {rounds.first + round * rounds.interval, scenario::clean_check(place, rounds.method)});
    }
    return with_events(scenario, std::move(checks));
}

/// P(every check clean) over the draws, in ln.
double log_mean(const Draws& draws) {
    const double highest = *std::max_element(draws.log_clean.begin(), draws.log_clean.end());
    double sum = 0;
    for (std::size_t i = 0; i < draws.prior.size(); ++i)
        sum += draws.prior[i] * std::exp(draws.log_clean[i] - highest);
    return highest + std::log(sum);
}

/// What is known of the checks up to today, if `time` is of no other: what is done later does not touch the
/// checks of the past. nullptr where planned checks lie in between.
KnownClean* still(const Standing& standing, KnownClean& clean_today, double time) {
    const double after_today = std::nextafter(standing.today, time + 1);
    return time < standing.today || has_checks(*standing.scenario, after_today, time) ? nullptr
                                                                                      : &clean_today;
}

class OutlookWriter {
  public:
    OutlookWriter(const Standing& standing, const Rounds& rounds, bool with_waiting, const Progress& progress)
        : standing_(standing),
          checked_(with_rounds(*standing.scenario, rounds)),
          with_waiting_(with_waiting),
          enquiry_(standing, progress,
                   2 + static_cast<std::size_t>(rounds.count) * (with_waiting ? 4U : 2U)) {}

    [[nodiscard]] bool add_today() {
        const auto draws = enquiry_.draws_to_tell(*standing_.scenario, standing_.today, {}, &clean_today_);
        if (!draws) return false;
        log_clean_today_ = log_mean(*draws);
        const Sureness now = sureness_of(*draws);
        points_.push_back({standing_.today, now, with_waiting_ ? std::optional(now) : std::nullopt, 1});
        return true;
    }

    [[nodiscard]] bool add(double time) {
        const auto checked = enquiry_.draws_to_tell(checked_, time);
        if (!checked) return false;
        const double all_clean = std::min(1.0, std::exp(log_mean(*checked) - log_clean_today_));
        points_.push_back({time, sureness_of(*checked), std::nullopt, all_clean});
        if (!with_waiting_) return true;
        const auto waited =
            enquiry_.draws_to_tell(*standing_.scenario, time, {}, still(standing_, clean_today_, time));
        if (waited) points_.back().waited = sureness_of(*waited);
        return waited.has_value();
    }

    [[nodiscard]] std::vector<OutlookPoint> take() { return std::move(points_); }

  private:
    const Standing& standing_;
    Scenario checked_;
    bool with_waiting_;
    Enquiry enquiry_;
    double log_clean_today_ = 0;
    KnownClean clean_today_;
    std::vector<OutlookPoint> points_;
};

template <class F>
std::optional<double> first_day(const std::vector<OutlookPoint>& points, F is_reached) {
    const auto found = std::find_if(points.begin(), points.end(), is_reached);
    return found == points.end() ? std::nullopt : std::optional(found->time);
}

/// By the risk, which is exact where a level is close to 1.
template <class F>
std::vector<Reached> days_reached(const std::vector<OutlookPoint>& points, std::span<const double> levels,
                                  F sureness) {
    std::vector<Reached> reached;
    for (const double level : levels) {
        const double most = 1 - level;
        reached.push_back({level,
                           first_day(points, [&](const auto& p) { return sureness(p).risk.mean <= most; }),
                           first_day(points, [&](const auto& p) { return sureness(p).risk.p90 <= most; })});
    }
    return reached;
}

}  // namespace

std::optional<Outlook> look_ahead(const Standing& standing, const Rounds& rounds,
                                  std::span<const double> levels, bool with_waiting,
                                  const Progress& progress) {
    expects(
        !rounds.places.empty() && rounds.count >= 0 && rounds.interval > 0 && rounds.first >= standing.today,
        "rounds of checks from today on");
    OutlookWriter writer(standing, rounds, with_waiting, progress);
    if (!writer.add_today()) return std::nullopt;
    for (int round = 0; round < rounds.count; ++round) {
        if (!writer.add(rounds.first + round * rounds.interval)) return std::nullopt;
    }
    Outlook outlook{writer.take(), {}, {}};
    outlook.checked = days_reached(outlook.points, levels, [](const auto& p) { return p.checked; });
    if (with_waiting)
        outlook.waited = days_reached(outlook.points, levels, [](const auto& p) { return *p.waited; });
    return outlook;
}

std::optional<Sureness> sure_of_collection(const Standing& standing, const Progress& progress) {
    const auto sure = sure_by_day(standing, std::array{standing.today}, progress);
    return sure ? std::optional(sure->front()) : std::nullopt;
}

namespace {

/// With mites counted there alone; nowhere named: anywhere.
std::optional<std::vector<Sureness>> sure_on_days(const Standing& standing,
                                                  const std::vector<scenario::PlaceIndex>& counted,
                                                  std::span<const double> times, const Progress& progress) {
    Enquiry enquiry(standing, progress, 1 + times.size());
    std::vector<Sureness> answers;
    KnownClean clean_today;
    for (const double time : times) {
        const auto draws =
            enquiry.draws_to_tell(*standing.scenario, time, counted, still(standing, clean_today, time));
        if (!draws) return std::nullopt;
        answers.push_back(sureness_of(*draws));
    }
    return answers;
}

}  // namespace

std::optional<std::vector<Sureness>> sure_by_day(const Standing& standing, std::span<const double> times,
                                                 const Progress& progress) {
    return sure_on_days(standing, {}, times, progress);
}

std::optional<std::vector<Sureness>> sure_of_place_by_day(const Standing& standing,
                                                          scenario::PlaceIndex place,
                                                          std::span<const double> times,
                                                          const Progress& progress) {
    return sure_on_days(standing, {place}, times, progress);
}

std::optional<std::vector<Sureness>> sure_of_groups(const Standing& standing,
                                                    std::span<const PlaceGroup> groups,
                                                    const Progress& progress) {
    Enquiry enquiry(standing, progress, groups.size() + 1);
    KnownClean clean;
    std::vector<Sureness> answers;
    for (const PlaceGroup& group : groups) {
        expects(!group.empty(), "a group has places");
        const auto draws = enquiry.draws_to_tell(*standing.scenario, standing.today, {group.front()}, &clean);
        if (!draws) return std::nullopt;
        answers.push_back(sureness_of(*draws));
    }
    return answers;
}

}  // namespace mitefall::clearance
