#include "forecast/course_of_counts.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.h"
#include "branching/expected_course.h"
#include "branching/side_by_side.h"

namespace mitefall::forecast {
namespace {

using base::expects;

/// Where a mite counts.
enum class Zone { on_animals, in_nest, eggs };
constexpr std::size_t zones = 3;

Zone zone_of(mites::Stage stage) {
    const mites::Activity activity = mites::activity_of(stage);
    if (activity == mites::Activity::egg) return Zone::eggs;
    return mites::is_on_animal(activity) ? Zone::on_animals : Zone::in_nest;
}

/// Share of all expected mites from which a place stands alone; the others show the mean of their class.
constexpr double share_set_apart = 0.01;

void set_apart_by_belief(const belief::Belief& belief, scenario::Scenario& scenario) {
    const std::vector<belief::PlaceBelief> mites = belief::mites_by_place(belief, scenario.places.size());
    const double all = belief::mites_in_all(belief).expected;
    for (scenario::PlaceIndex place = 0; place < scenario.places.size(); ++place) {
        if (mites[place].expected > share_set_apart * all) scenario.places[place].set_apart = true;
    }
}

/// Mites of like prospects are lumped; for numbers by place, places must also begin alike and receive alike.
network::Classes classes_of_numbers(const ForecastRequest& request, scenario::Scenario& scenario) {
    for (const scenario::Event& event : scenario.events) {
        const scenario::PlaceIndex target = scenario::target_of(event.what);
        if (target != scenario::nowhere) scenario.places[target].set_apart = true;
    }
    set_apart(request.start, scenario);
    if (const auto* const known = std::get_if<KnownStart>(&request.start)) {
        for (const scenario::MiteCount& group : *known) scenario.places[group.place].set_apart = true;
    } else if (const auto* const belief = std::get_if<const belief::Belief*>(&request.start)) {
        set_apart_by_belief(**belief, scenario);
    }
    return network::lump(scenario);
}

/// Per class, time, zone and draw: expected mites of one place of the class.
using ClassNumbers = std::vector<std::vector<std::array<std::vector<double>, zones>>>;

/// Times, one after the other, by which the same checks were made.
struct Group {
    std::vector<double> times;
    std::size_t first = 0;                                         ///< of all times
    double clean_until = branching::ExpectedCourse::no_condition;  ///< the last check
    std::vector<double> log_clean;                                 ///< per draw: ln P(these checks are clean)
};

std::vector<Group> group_by_checks(const ForecastRequest& request, const std::vector<double>& times) {
    std::vector<Group> groups;
    for (std::size_t t = 0; t < times.size(); ++t) {
        double last = branching::ExpectedCourse::no_condition;
        for (const scenario::Event& event : request.scenario->events) {
            const bool counts = event.time >= request.from && event.time <= times[t];
            if (counts && std::holds_alternative<scenario::CleanCheck>(event.what)) last = event.time;
        }
        if (groups.empty() || groups.back().clean_until != last) {
            groups.push_back({{}, t, last, std::vector<double>(request.ensemble->draws.size())});
        }
        groups.back().times.push_back(times[t]);
    }
    return groups;
}

class Counter {
  public:
    Counter(const ForecastRequest& request, const std::vector<double>& times)
        : request_(request), scenario_(*request.scenario), groups_(group_by_checks(request, times)) {
        classes_ = classes_of_numbers(request, scenario_);
        const std::array<std::vector<double>, zones> nothing{
            std::vector<double>(draws()), std::vector<double>(draws()), std::vector<double>(draws())};
        numbers_.assign(classes_.members.size(), {times.size(), nothing});
    }

    [[nodiscard]] std::size_t draws() const { return request_.ensemble->draws.size(); }
    [[nodiscard]] const network::Classes& classes() const { return classes_; }
    [[nodiscard]] const ClassNumbers& numbers() const { return numbers_; }
    [[nodiscard]] const std::vector<Group>& groups() const { return groups_; }

    /// Blocks write to draws of their own.
    void run(std::size_t index) {
        const auto draws =
            std::span(request_.ensemble->draws).subspan(index * branching::lane_count, branching::lane_count);
        const network::MiteNetwork compiled =
            network::compile(scenario_, classes_, request_.ensemble->fixed, draws);
        const CompiledBlock block{compiled, classes_, request_.ensemble->fixed, draws, index};
        const BlockStart start(request_.start, block, request_.from, request_.tolerance);
        for (Group& group : groups_) {
            const branching::ExpectedCourse expected(compiled.network, request_.from, group.times,
                                                     group.clean_until, branching::for_show);
            const branching::Lanes log_clean = start.log_chance(expected.checks());
            std::copy(log_clean.x.begin(), log_clean.x.end(),
                      group.log_clean.begin() + static_cast<std::ptrdiff_t>(index * branching::lane_count));
            const auto course = expected.follow(start.numbers(&expected.checks()));
            for (std::size_t t = 0; t < course.size(); ++t)
                add_up(compiled.layout, course[t], group.first + t, index);
        }
    }

  private:
    void add_up(const network::Layout& layout, const std::vector<branching::Lanes>& numbers, std::size_t time,
                std::size_t block) {
        for (std::size_t c = 0; c < classes_.members.size(); ++c) {
            const auto members = static_cast<double>(classes_.members[c].size());
            for (const mites::Stage stage : mites::all_stages) {
                const branching::TypeIndex first = layout.first[c][static_cast<std::size_t>(stage)];
                if (first == branching::no_type) continue;
                std::vector<double>& sums = numbers_[c][time][static_cast<std::size_t>(zone_of(stage))];
                for (std::uint32_t m = 0; m < layout.substages(stage); ++m) {
                    for (std::size_t lane = 0; lane < branching::lane_count; ++lane)
                        sums[block * branching::lane_count + lane] += numbers[first + m][lane] / members;
                }
            }
        }
    }

    const ForecastRequest& request_;
    scenario::Scenario scenario_;
    network::Classes classes_;
    ClassNumbers numbers_;
    std::vector<Group> groups_;
};

void add(std::vector<double>& into, const std::vector<double>& values, double factor) {
    for (std::size_t i = 0; i < into.size(); ++i) into[i] += factor * values[i];
}

CountBands bands_of(const std::array<std::vector<double>, zones>& by_zone,
                    const std::vector<double>& weights) {
    std::vector<double> all(by_zone[0].size());
    for (const auto& zone : by_zone) add(all, zone, 1);
    const auto band = [&](const std::vector<double>& values) {
        return weights.empty() ? base::band_of(values) : base::band_of(values, weights);
    };
    const auto in = [&](Zone zone) { return band(by_zone[static_cast<std::size_t>(zone)]); };
    return {band(all), in(Zone::on_animals), in(Zone::in_nest), in(Zone::eggs)};
}

/// Checks weigh the draws, as they do for the chance of clear.
std::vector<double> weights_after(const Group& group, const std::vector<double>& weights) {
    if (group.clean_until == branching::ExpectedCourse::no_condition) return weights;
    return base::weigh(weights.empty() ? std::vector<double>(group.log_clean.size(), 1.0) : weights,
                       group.log_clean);
}

void add_time(const Counter& counter, std::size_t t, const std::vector<double>& weights,
              std::vector<std::vector<CountBands>>& by_class, CourseOfCounts& course) {
    std::array<std::vector<double>, zones> total;
    total.fill(std::vector<double>(counter.draws()));
    for (std::size_t c = 0; c < by_class.size(); ++c) {
        const auto& here = counter.numbers()[c][t];
        by_class[c].push_back(bands_of(here, weights));
        const auto members = static_cast<double>(counter.classes().members[c].size());
        for (std::size_t z = 0; z < zones; ++z) add(total[z], here[z], members);
    }
    course.collection.push_back(bands_of(total, weights));
}

CourseOfCounts summarise(const Counter& counter, const std::vector<double>& times,
                         const std::vector<double>& weights) {
    CourseOfCounts course{times, {}, {}};
    std::vector<std::vector<CountBands>> by_class(counter.classes().members.size());
    for (const Group& group : counter.groups()) {
        const std::vector<double> after = weights_after(group, weights);
        for (std::size_t t = 0; t < group.times.size(); ++t)
            add_time(counter, group.first + t, after, by_class, course);
    }
    for (const std::size_t c : counter.classes().class_of) course.places.push_back(by_class[c]);
    return course;
}

void check_weights(const ForecastRequest& request, const std::vector<double>& weights) {
    expects(request.scenario != nullptr && request.ensemble != nullptr, "a scenario and parameters");
    expects(weights.empty() || weights.size() == request.ensemble->draws.size(), "a weight for every draw");
}

}  // namespace

std::optional<CourseOfCounts> course_of_counts(const ForecastRequest& request,
                                               const std::vector<double>& times,
                                               const std::vector<double>& weights) {
    check_weights(request, weights);
    Counter counter(request, times);
    const auto run = [&](std::size_t block) { counter.run(block); };
    if (!branching::side_by_side(counter.draws() / branching::lane_count, request.progress, run))
        return std::nullopt;
    return summarise(counter, times, weights);
}

std::optional<std::vector<base::Band>> chance_by_day(const ForecastRequest& request,
                                                     const std::vector<double>& times) {
    check_weights(request, {});
    std::vector<base::Band> curve;
    ForecastRequest on_day = request;
    on_day.only_mode = false;
    for (const double time : times) {
        expects(time >= request.from, "a day not before the start");
        on_day.to = time;
        if (request.progress) {
            on_day.progress = [&](double share) {
                return request.progress((static_cast<double>(curve.size()) + share) /
                                        static_cast<double>(times.size()));
            };
        }
        const auto forecast = forecast_clear(on_day);
        if (!forecast) return std::nullopt;
        curve.push_back(forecast->clear);
    }
    return curve;
}

std::vector<double> days_between(double from, double to, double step) {
    expects(from <= to && step > 0, "days in order");
    std::vector<double> days;
    for (int i = 0; from + i * step < to; ++i) days.push_back(from + i * step);
    days.push_back(to);
    return days;
}

}  // namespace mitefall::forecast
