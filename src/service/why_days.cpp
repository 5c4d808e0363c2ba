#include "service/why_days.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <utility>

#include "plan/search.h"
#include "service/adopted.h"
#include "service/course_to_come.h"
#include "service/rescore.h"
#include "service/stand.h"
#include "worklist/check_days.h"

namespace mitefall::service {
namespace {

using base::Band;
using base::invalid;
using formats::StripEnclosure;
using formats::StripGate;
using records::EnclosureId;
using units::Day;
using units::Days;

constexpr std::size_t blocks_followed = 8;  // of the belief: shares are told in whole hundredths
constexpr double over = 2.0 / 1024;         // days; what is done on a day is done an instant after it begins
constexpr int latest_days = 180;            // from today

// Days

/// Those of the course from today on.
std::vector<Day> days_to_come(const plan::Assignment& course, Day today) {
    std::vector<Day> days;
    std::copy_if(course.rounds.begin(), course.rounds.end(), std::back_inserter(days),
                 [&](Day day) { return day >= today; });
    return days;
}

bool is_begun(const plan::Assignment& course, Day round) {
    const std::string day = units::format_day(round);
    return std::any_of(course.settled.begin(), course.settled.end(),
                       [&](const std::string& task) { return task.starts_with(day); });
}

Result<void> check_order(const std::vector<Day>& asked, Day before) {
    for (const Day day : asked) {
        if (day < before + Days(plan::shortest_interval))
            return fail(invalid("two rounds are too close", units::format_day(day),
                                fmt::format("at least {} days from one to the next", plan::shortest_interval),
                                "put them further apart"));
        before = day;
    }
    return {};
}

/// The course with its rounds to come on these days.
Result<plan::Assignment> on_days(plan::Assignment course, const std::vector<Day>& asked, Day today) {
    if (asked.empty()) return course;
    const std::vector<Day> now = days_to_come(course, today);
    if (asked.size() != now.size())
        return fail(invalid("a day for every round still to come is needed",
                            fmt::format("{} days", asked.size()), fmt::format("{} days", now.size()),
                            "name them all, in order"));
    if (asked.front() < today || asked.back() > today + Days(latest_days))
        return fail(invalid("a round cannot be put to that day",
                            units::format_day(asked.front() < today ? asked.front() : asked.back()),
                            fmt::format("from today on, within {} days", latest_days),
                            "choose a day in between"));
    const std::size_t past = course.rounds.size() - now.size();
    const Day before = past > 0 ? course.rounds[past - 1] : today - Days(plan::shortest_interval);
    if (const auto ok = check_order(asked, before); !ok) return fail(ok.error());
    for (std::size_t i = 0; i < now.size(); ++i) {
        if (asked[i] != now[i] && is_begun(course, now[i]))
            return fail(invalid("a round of which something is done stays on its day",
                                units::format_day(now[i]), {}, "move the others"));
        course.rounds[past + i] = asked[i];
    }
    return course;
}

// Enclosures

double warmth_of(const records::Climate& climate) {
    return (units::in_celsius(climate.day) + units::in_celsius(climate.night)) / 2;
}

/// The warmest and the coldest that is lived in, the last of several alike: there mites are likelier.
std::vector<EnclosureId> warmest_and_coldest(const plan::Assignment& course,
                                             const records::Collection& collection) {
    std::vector<EnclosureId> lived_in;
    for (const EnclosureId& id : course.enclosures) {
        if (collection.enclosures.contains(id) && !collection.animals_in(id).empty()) lived_in.push_back(id);
    }
    if (lived_in.empty()) return {};
    std::reverse(lived_in.begin(), lived_in.end());
    const auto is_colder = [&](const EnclosureId& a, const EnclosureId& b) {
        return warmth_of(collection.enclosures.at(a).climate) <
               warmth_of(collection.enclosures.at(b).climate);
    };
    const EnclosureId warmest = *std::max_element(lived_in.begin(), lived_in.end(), is_colder);
    const EnclosureId coldest = *std::min_element(lived_in.begin(), lived_in.end(), is_colder);
    if (!is_colder(coldest, warmest)) return {warmest};
    return {warmest, coldest};
}

Result<std::vector<EnclosureId>> enclosures_told(const plan::Assignment& course,
                                                 const records::Collection& collection,
                                                 const std::string& asked) {
    const EnclosureId named(asked);
    if (!asked.empty()) {
        if (std::find(course.enclosures.begin(), course.enclosures.end(), named) != course.enclosures.end() &&
            collection.enclosures.contains(named))
            return std::vector<EnclosureId>{named};
        return fail({ErrorKind::not_found,
                     "that is no enclosure of the course",
                     asked,
                     {},
                     "name one that is treated",
                     {}});
    }
    auto told = warmest_and_coldest(course, collection);
    if (told.empty())
        return fail({ErrorKind::not_found,
                     "nobody lives in an enclosure of the course",
                     {},
                     {},
                     "name an enclosure of it",
                     {}});
    return told;
}

// What is told of one enclosure

std::vector<StripGate> gates_of(const plan::Schedule& schedule, const EnclosureId& enclosure) {
    std::vector<StripGate> gates;
    for (const plan::Round& round : schedule.rounds) {
        StripGate gate{round.day, round.own_date, {}, {}, {}, {}, {}};
        for (const plan::ScheduledTreatment& scheduled : round.treatments) {
            const records::Method method = scheduled.treatment.method();
            const bool is_new =
                std::find(gate.methods.begin(), gate.methods.end(), method) == gate.methods.end();
            if (scheduled.treatment.enclosure() == enclosure && is_new) gate.methods.push_back(method);
        }
        if (!round.own_date || !gate.methods.empty()) gates.push_back(std::move(gate));
    }
    std::stable_sort(gates.begin(), gates.end(),
                     [](const StripGate& a, const StripGate& b) { return a.day < b.day; });
    // What is done to those who waited on the day of another round is part of that round.
    for (std::size_t i = 1; i < gates.size();) {
        if (gates[i].day != gates[i - 1].day) {
            ++i;
            continue;
        }
        for (const records::Method method : gates[i].methods) {
            auto& methods = gates[i - 1].methods;
            if (std::find(methods.begin(), methods.end(), method) == methods.end()) methods.push_back(method);
        }
        gates[i - 1].own_date = gates[i - 1].own_date && gates[i].own_date;
        gates.erase(gates.begin() + static_cast<std::ptrdiff_t>(i));
    }
    return gates;
}

double sum_of(const forecast::Shares& shares) {
    double sum = 0;
    for (const auto& cohort : shares) sum = std::accumulate(cohort.begin(), cohort.end(), sum);
    return sum;
}

double eggs_of(const forecast::Shares& shares) {
    double sum = 0;
    for (const auto& cohort : shares) sum += cohort[static_cast<std::size_t>(mites::LifeStage::egg)];
    return sum;
}

/// What a passage says at one of its times.
class Told {
  public:
    explicit Told(const forecast::Passage& passage) : passage_(passage) {}

    [[nodiscard]] forecast::Shares mean(std::size_t time) const {
        forecast::Shares mean{};
        for (std::size_t d = 0; d < passage_.draws.size(); ++d) {
            for (std::size_t c = 0; passage_.weights[d] > 0 && c < mean.size(); ++c) {
                for (std::size_t s = 0; s < mean[c].size(); ++s)
                    mean[c][s] += passage_.weights[d] * std::max(0.0, passage_.draws[d][time][c][s]);
            }
        }
        return mean;
    }

    template <class F>
    [[nodiscard]] Band band(F of_draw) const {
        std::vector<double> values;
        for (const auto& draw : passage_.draws) values.push_back(std::max(0.0, of_draw(draw)));
        return base::band_of(values, passage_.weights);
    }

    [[nodiscard]] bool is_known() const {
        return std::any_of(passage_.weights.begin(), passage_.weights.end(),
                           [](double weight) { return weight > 0; });
    }

  private:
    const forecast::Passage& passage_;
};

class StripWriter {
  public:
    /// All outlive it.
    StripWriter(const plan::Setting& setting, const plan::Schedule& schedule, const Believed& believed)
        : setting_(setting),
          schedule_(schedule),
          believed_(believed),
          scenario_(scenario_from_today(setting, schedule)),
          checks_(worklist::check_days_after(schedule, setting.with.tables)) {
        request_.scenario = &scenario_;
        request_.ensemble = &believed.ensemble;
        request_.start = &believed.belief;
        request_.from = setting.known.from;
        request_.blocks = std::min(blocks_followed, believed.ensemble.draws.size() / branching::lane_count);
    }

    [[nodiscard]] Result<StripEnclosure> write(const EnclosureId& id,
                                               const clearance::Progress& progress) const {
        const records::Climate& climate = setting_.with.collection.enclosures.at(id).climate;
        StripEnclosure told{id, climate.day, climate.night, {}, gates_of(schedule_, id), {}};
        const auto passage = follow(told, progress);
        if (!passage) return fail(cancelled());
        const Told of(*passage);
        if (!of.is_known())
            return fail({ErrorKind::not_found,
                         "no mite is thought to be in that enclosure",
                         id.text(),
                         {},
                         "name another enclosure of the course",
                         {}});
        tell(told, of);
        const auto draws = std::span(believed_.ensemble.draws).first(passage->weights.size());
        for (const mites::LifeStage stage : mites::all_life_stages)
            told.lasts[static_cast<std::size_t>(stage)] =
                mites::duration_of(stage, believed_.ensemble.fixed, draws, passage->weights, climate);
        return told;
    }

  private:
    [[nodiscard]] double today() const { return setting_.known.time_of(setting_.today); }

    /// Two times for every gate, before and after, then one for every check.
    [[nodiscard]] std::optional<forecast::Passage> follow(const StripEnclosure& told,
                                                          const clearance::Progress& progress) const {
        forecast::PassageRequest request{request_, setting_.known.enclosures.at(told.enclosure), today(), {}};
        request.known.progress = progress;
        for (const StripGate& gate : told.gates) {
            const double begins = setting_.known.time_of(gate.day);
            request.times.insert(request.times.end(), {begins, begins + over});
        }
        for (const Day day : checks_) request.times.push_back(setting_.known.time_of(day));
        return forecast::passage_of(request);
    }

    void tell(StripEnclosure& told, const Told& of) const {
        std::size_t time = 0;
        for (StripGate& gate : told.gates) {
            gate.before = of.mean(time);
            gate.after = of.mean(time + 1);
            gate.caught =
                of.band([&](const auto& draw) { return sum_of(draw[time]) - sum_of(draw[time + 1]); });
            gate.passed = of.band([&](const auto& draw) { return eggs_of(draw[time + 1]); });
            time += 2;
        }
        for (const Day day : checks_) {
            told.checks.push_back({day, of.band([&](const auto& draw) { return sum_of(draw[time]); })});
            ++time;
        }
    }

    const plan::Setting& setting_;
    const plan::Schedule& schedule_;
    const Believed& believed_;
    scenario::Scenario scenario_;
    std::vector<Day> checks_;
    forecast::ForecastRequest request_;
};

}  // namespace

Result<WhyDays> why_days_of(const Situation& situation, const plan::Setting& setting,
                            const plan::Assignment& course, const WhyDaysOptions& options) {
    const auto dated = on_days(course, options.days, setting.today);
    if (!dated) return fail(dated.error());
    const auto enclosures = enclosures_told(*dated, situation.collection(), options.enclosure);
    if (!enclosures) return fail(enclosures.error());
    const auto believed =
        situation.believed({options.draws, options.seed}, part_of(options.progress, 0, 0.3));
    if (!believed) return fail(believed.error());
    plan::Schedule schedule = plan::fit(*dated, setting);
    const StripWriter writer(setting, schedule, **believed);
    formats::StripView view{setting.today, days_to_come(*dated, setting.today), {}, {}, {}, 0};
    for (std::size_t i = 0; i < enclosures->size(); ++i) {
        const double begin = 0.3 + 0.1 * static_cast<double>(i);
        auto told = writer.write((*enclosures)[i], part_of(options.progress, begin, begin + 0.1));
        if (!told) return fail(told.error());
        view.enclosures.push_back(std::move(*told));
    }
    const plan::Scorer scorer(setting, (*believed)->ensemble, (*believed)->belief, options.horizon_days,
                              branching::for_show);
    const auto scored = scorer.score(schedule, 0, part_of(options.progress, 0.5, 1));
    if (!scored) return fail(cancelled());
    view.clear = scored->clear;
    view.by = setting.today + Days(static_cast<int>(options.horizon_days));
    view.left_out = schedule.left_out.size();
    return WhyDays{std::move(view), std::move(schedule)};
}

Result<WhyDays> why_days_on_record(const Situation& situation, const WhyDaysOptions& options) {
    const auto setting = situation.setting_of_course();
    if (!setting) return fail(setting.error());
    const records::Collection& today = situation.collection();
    if (!today.plan) return fail(no_plan());
    WhyDaysOptions left = options;
    PlanOptions horizon;
    horizon.horizon_days = options.horizon_days;
    left.horizon_days = horizon_left(today, horizon, situation.today());
    return why_days_of(situation, *setting, worklist::assignment_on_record(today), left);
}

Result<worklist::Redated> adopted_on(const Situation& situation, const std::vector<Day>& days) {
    const auto& plan = situation.collection().plan;
    if (!plan) return fail(no_plan());
    const auto course =
        on_days(worklist::assignment_on_record(situation.collection()), days, situation.today());
    if (!course) return fail(course.error());
    return worklist::Redated{course->rounds, plan->value.moved, {}, {}};
}

}  // namespace mitefall::service
