#include "simulator/simulator.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <boost/random/poisson_distribution.hpp>
#include <cmath>
#include <limits>
#include <optional>

#include "base/band.h"
#include "base/contract.h"
#include "base/random.h"
#include "mites/rates.h"
#include "scenario/seen.h"

namespace mitefall::simulator {
namespace {

struct Mite {
    scenario::PlaceIndex place = 0;
    mites::Stage stage = mites::Stage::egg;
    int substage = 0;
    double time = 0;
};

/// What a place is like during one epoch (between two instants at which anything happens anywhere).
struct Setting {
    records::Climate climate;
    int animals = 0;
    const scenario::Medicated* drugs = nullptr;
    std::vector<scenario::Residue> on_paper;
};

struct Epoch {
    double begin = 0;
    std::vector<const scenario::Event*> events;  ///< at `begin`, in order
    std::vector<int> animals_before;             ///< per event: animals in its place just before it
    std::vector<Setting> settings;               ///< per place, after the events
};

/// The world is the same in every run and is read only.
class World {
  public:
    explicit World(const SimulationRequest& request) : request_(request), scenario_(*request.scenario) {
        std::vector<Setting> settings;
        for (const scenario::Place& place : scenario_.places)
            settings.push_back({place.climate, place.animals, nullptr, {}});
        std::vector<double> instants{-std::numeric_limits<double>::infinity()};
        for (const scenario::Event& event : scenario_.events) instants.push_back(event.time);
        std::sort(instants.begin(), instants.end());
        instants.erase(std::unique(instants.begin(), instants.end()), instants.end());
        std::size_t next = 0;
        for (const double instant : instants) {
            Epoch epoch;
            epoch.begin = instant;
            for (; next < scenario_.events.size() && scenario_.events[next].time <= instant; ++next) {
                const scenario::Event& event = scenario_.events[next];
                epoch.events.push_back(&event);
                epoch.animals_before.push_back(settings[scenario::place_of(event.what)].animals);
                update(event.what, settings);
            }
            epoch.settings = settings;
            epochs_.push_back(std::move(epoch));
        }
        enclosures_.resize(scenario_.places.size());
        for (scenario::PlaceIndex p = 0; p < scenario_.places.size(); ++p) {
            const scenario::Place& place = scenario_.places[p];
            if (!place.is_room && place.room != scenario::nowhere) enclosures_[place.room].push_back(p);
        }
        tabulate_rates();
    }

    [[nodiscard]] const SimulationRequest& request() const { return request_; }
    [[nodiscard]] const scenario::Scenario& scenario() const { return scenario_; }
    [[nodiscard]] const std::vector<Epoch>& epochs() const { return epochs_; }
    [[nodiscard]] const std::vector<scenario::PlaceIndex>& enclosures_of(scenario::PlaceIndex room) const {
        return enclosures_[room];
    }
    [[nodiscard]] const mites::StageRates& rates(std::size_t epoch, scenario::PlaceIndex place,
                                                 mites::Stage stage) const {
        return rates_[(epoch * scenario_.places.size() + place) * mites::stage_total +
                      static_cast<std::size_t>(stage)];
    }
    [[nodiscard]] std::size_t epoch_at(double time) const {
        const auto after = std::partition_point(epochs_.begin(), epochs_.end(),
                                                [&](const Epoch& e) { return e.begin < time; });
        return static_cast<std::size_t>(std::distance(epochs_.begin(), after)) - 1;
    }

  private:
    static void update(const scenario::Happening& what, std::vector<Setting>& settings) {
        if (const auto* const e = std::get_if<scenario::MoveAnimal>(&what)) {
            --settings[e->from].animals;
            ++settings[e->to].animals;
        } else if (const auto* const j = std::get_if<scenario::AnimalJoins>(&what)) {
            ++settings[j->place].animals;
        } else if (const auto* const l = std::get_if<scenario::AnimalLeaves>(&what)) {
            --settings[l->place].animals;
        } else if (const auto* const c = std::get_if<scenario::ClimateChange>(&what)) {
            settings[c->place].climate = c->climate;
        } else if (const auto* const m = std::get_if<scenario::Medicated>(&what)) {
            settings[m->place].drugs = m;
        } else if (const auto* const r = std::get_if<scenario::Residue>(&what)) {
            scenario::lay(*r, settings[r->place].on_paper);
        } else if (const auto* const g = std::get_if<scenario::ResidueGone>(&what)) {
            settings[g->place].on_paper.clear();
        }
    }

    void tabulate_rates() {
        rates_.reserve(epochs_.size() * scenario_.places.size() * mites::stage_total);
        for (const Epoch& epoch : epochs_) {
            for (const Setting& setting : epoch.settings) {
                for (const mites::Stage stage : mites::all_stages) {
                    rates_.push_back(
                        mites::stage_rates(stage, request_.fixed, request_.draw, setting.climate));
                }
            }
        }
    }

    const SimulationRequest& request_;
    const scenario::Scenario& scenario_;
    std::vector<Epoch> epochs_;
    std::vector<std::vector<scenario::PlaceIndex>> enclosures_;
    std::vector<mites::StageRates> rates_;
};

struct RunResult {
    bool clear = true;
    bool clean = true;
    bool cut_short = false;
    std::vector<double> counts;
};

/// One outbreak: a stack of mites, each followed to its death or to the horizon.
class Outbreak {
  public:
    Outbreak(const World& world, std::uint32_t run)
        : world_(world), request_(world.request()), random_(request_.seed, run, 1) {
        result_.counts.assign(request_.report_times.size(), 0.0);
    }

    RunResult run() {
        for (const scenario::MiteCount& group : request_.start) add_group(group);
        for (const scenario::Event& event : world_.scenario().events) {
            if (const auto* const import = std::get_if<scenario::Import>(&event.what))
                add_imported(*import, event.time);
        }
        while (!waiting_.empty() && !result_.cut_short) {
            const Mite mite = waiting_.back();
            waiting_.pop_back();
            follow(mite);
        }
        if (result_.cut_short) result_.clear = false;
        return std::move(result_);
    }

  private:
    void add_group(const scenario::MiteCount& group) {
        long long n = std::llround(group.count);
        if (request_.numbers == StartingNumbers::poisson_means) {
            n = group.count > 0 ? boost::random::poisson_distribution<long long>(group.count)(random_) : 0;
        }
        for (long long i = 0; i < n; ++i)
            waiting_.push_back({group.place, group.stage, group.substage, request_.from});
    }

    /// A Poisson stream over the part of its time that lies within the simulation.
    void add_imported(const scenario::Import& import, double since) {
        const double begin = std::max(since, request_.from);
        const double rate = import.rate.in(request_.draw);
        if (!(rate > 0)) return;
        const double end = std::min(import.until, request_.to);
        for (double time = begin + random_.exponential(rate); time < end; time += random_.exponential(rate)) {
            waiting_.push_back({import.place, import.stage, 0, time});
        }
    }

    /// The epoch whose events at `from` are still to come is the one before it.
    void follow(Mite mite) {
        std::size_t epoch = world_.epoch_at(mite.time);
        while (true) {
            if (++steps_ > request_.most_steps) {
                result_.cut_short = true;
                return;
            }
            const auto& epochs = world_.epochs();
            const bool more = epoch + 1 < epochs.size() && epochs[epoch + 1].begin <= request_.to;
            const double limit = more ? epochs[epoch + 1].begin : request_.to;
            const Fate fate = live_until(mite, epoch, limit);
            if (fate == Fate::dead) return;
            if (fate == Fate::waiting) continue;
            if (!more) {
                result_.clear = false;
                count_between(request_.to, std::numeric_limits<double>::infinity());
                return;
            }
            ++epoch;
            for (std::size_t e = 0; e < epochs[epoch].events.size(); ++e) {
                if (!pass(mite, epochs[epoch].events[e]->what, epochs[epoch].animals_before[e])) return;
            }
        }
    }

    enum class Fate { dead, waiting, at_limit };

    /// Lets the mite live to its next change of state, or to `limit` if that comes first.
    Fate live_until(Mite& mite, std::size_t epoch, double limit) {
        const Setting& setting = world_.epochs()[epoch].settings[mite.place];
        const scenario::Place& place = world_.scenario().places[mite.place];
        const mites::StageRates& rates = world_.rates(epoch, mite.place, mite.stage);
        const mites::Activity activity = mites::activity_of(mite.stage);
        const double hazard = hazard_at(setting, place, activity, mite.time);
        const double finding = mites::is_seeking(activity) && !place.is_room && setting.animals > 0
                                   ? mites::finding_rate(mite.stage, request_.draw)
                                   : 0;
        const double laying = activity == mites::Activity::adult_laying
                                  ? mites::laying_rate(request_.fixed, request_.draw, setting.climate)
                                  : 0;
        const double walking = mites::wanders(activity) ? walking_rate(mite.place) : 0;
        const double total = rates.advance + rates.loss + hazard + finding + laying + walking;
        const double next =
            total > 0 ? mite.time + random_.exponential(total) : std::numeric_limits<double>::infinity();
        count_between(mite.time, std::min(next, limit));
        if (next >= limit) {
            mite.time = limit;
            return Fate::at_limit;
        }
        mite.time = next;
        double pick = random_.uniform() * total;
        if ((pick -= rates.advance) < 0) return advance(mite, rates.substages);
        if ((pick -= rates.loss) < 0) return Fate::dead;
        if ((pick -= hazard) < 0) return die_of_residue(setting, place, activity, mite.time, hazard);
        if ((pick -= finding) < 0) return find_animal(mite, setting);
        if ((pick -= laying) < 0) {
            waiting_.push_back({mite.place, mites::Stage::egg, 0, mite.time});
            return Fate::waiting;
        }
        mite.place = walk(mite.place);
        return Fate::waiting;
    }

    Fate advance(Mite& mite, int substages) {
        if (++mite.substage < substages) return Fate::waiting;
        mite.substage = 0;
        const mites::Activity activity = mites::activity_of(mite.stage);
        if (mites::is_seeking(activity)) return Fate::dead;
        if (activity == mites::Activity::adult_laying) {
            if (!(random_.uniform() < mites::chance_of_next_meal(mites::meal_of(mite.stage), request_.draw)))
                return Fate::dead;
        }
        mite.stage = mites::next_stage(mite.stage);
        return Fate::waiting;
    }

    /// `bound` was the hazard when the waiting time was drawn; it can only have faded since.
    Fate die_of_residue(const Setting& setting, const scenario::Place& place, mites::Activity activity,
                        double now, double bound) {
        return random_.uniform() * bound < hazard_at(setting, place, activity, now) ? Fate::dead
                                                                                    : Fate::waiting;
    }

    /// One of the animals alike, with what was given to it.
    template <class Given>
    const std::vector<Given>& pick_animal(const std::vector<std::vector<Given>>& animals) {
        const auto n = static_cast<double>(animals.size());
        return animals[std::min(animals.size() - 1, static_cast<std::size_t>(random_.uniform() * n))];
    }

    Fate find_animal(Mite& mite, const Setting& setting) {
        if (setting.drugs != nullptr && !setting.drugs->animals.empty()) {
            double strongest = 0;
            for (const scenario::Dose& dose : pick_animal(setting.drugs->animals)) {
                if (mite.time < dose.until && happens(dose.part))
                    strongest = std::max(strongest, dose.chance.in(request_.draw));
            }
            if (happens(strongest)) return Fate::dead;
        }
        mite.stage = mites::next_stage(mite.stage);
        mite.substage = 0;
        return Fate::waiting;
    }

    [[nodiscard]] double hazard_at(const Setting& setting, const scenario::Place& place,
                                   mites::Activity activity, double now) const {
        if (place.is_room || !mites::reaches(mites::Reach::mobile_nest, activity)) return 0;
        return scenario::hazard_of(setting.on_paper, request_.draw, now);
    }

    [[nodiscard]] double leaving_rate(const scenario::Place& place) const {
        const double others = static_cast<double>(world_.enclosures_of(place.room).size()) - 1;
        return request_.draw.leaving_rate * std::max(1.0, std::min(others, request_.fixed.neighbours));
    }

    [[nodiscard]] double walking_rate(scenario::PlaceIndex index) const {
        const scenario::Place& place = world_.scenario().places[index];
        if (!place.is_room) return place.room == scenario::nowhere ? 0 : leaving_rate(place);
        const double into_enclosures = world_.enclosures_of(index).empty() ? 0 : request_.draw.entering_rate;
        return into_enclosures +
               static_cast<double>(place.adjoining.size()) * request_.draw.room_crossing_rate;
    }

    scenario::PlaceIndex walk(scenario::PlaceIndex index) {
        const scenario::Place& place = world_.scenario().places[index];
        if (!place.is_room) return place.room;
        const auto& enclosures = world_.enclosures_of(index);
        const double into_enclosures = enclosures.empty() ? 0 : request_.draw.entering_rate;
        const double across = static_cast<double>(place.adjoining.size()) * request_.draw.room_crossing_rate;
        if (random_.uniform() * (into_enclosures + across) < into_enclosures) return pick_one(enclosures);
        return pick_one(place.adjoining);
    }

    scenario::PlaceIndex pick_one(const std::vector<scenario::PlaceIndex>& places) {
        const auto n = static_cast<double>(places.size());
        return places[std::min(places.size() - 1, static_cast<std::size_t>(random_.uniform() * n))];
    }

    bool happens(double chance) { return random_.uniform() < chance; }

    /// Takes the mite through one event; false if it dies of it.
    bool pass(Mite& mite, const scenario::Happening& what, int animals_before) {
        if (scenario::place_of(what) != mite.place) return true;
        const mites::Activity activity = mites::activity_of(mite.stage);
        if (const auto* const e = std::get_if<scenario::Kill>(&what)) {
            return !(mites::reaches(e->reach, activity) && happens(e->part) &&
                     happens(e->chance.in(request_.draw)));
        }
        if (const auto* const e = std::get_if<scenario::KillOnAnimals>(&what)) {
            if (!mites::is_on_animal(activity) || e->animals.empty()) return true;
            for (const scenario::Dab& dab : pick_animal(e->animals)) {
                if (happens(dab.part) && happens(dab.chance.in(request_.draw))) return false;
            }
            return true;
        }
        if (const auto* const e = std::get_if<scenario::MoveAnimal>(&what)) {
            if (mites::is_on_animal(activity) && happens(1.0 / animals_before)) mite.place = e->to;
        } else if (std::holds_alternative<scenario::AnimalLeaves>(what)) {
            return !(mites::is_on_animal(activity) && happens(1.0 / animals_before));
        } else if (const auto* const c = std::get_if<scenario::Contact>(&what)) {
            if (mites::reaches(c->reach, activity) && happens(c->chance.in(request_.draw)))
                mite.place = c->to;
        } else if (const auto* const check = std::get_if<scenario::CleanCheck>(&what)) {
            if (happens(scenario::chance_to_be_seen(*check, activity, request_.fixed, request_.draw)))
                result_.clean = false;
        }
        return true;
    }

    /// Alive from `begin` to just before `end`.
    void count_between(double begin, double end) {
        const auto& times = request_.report_times;
        for (auto t = std::lower_bound(times.begin(), times.end(), begin); t != times.end() && *t < end;
             ++t) {
            result_.counts[static_cast<std::size_t>(std::distance(times.begin(), t))] += 1;
        }
    }

    const World& world_;
    const SimulationRequest& request_;
    base::RandomStream random_;
    std::vector<Mite> waiting_;
    RunResult result_;
    std::uint64_t steps_ = 0;
};

Estimate estimate_share(double hits, double n) {
    const double p = hits / n;
    // With no or only hits the plug-in error is zero; Agresti & Coull 1998 (Am. Stat. 52:119-126) shrink it.
    const double shrunk = (hits + 2) / (n + 4);
    return {p, std::sqrt(shrunk * (1 - shrunk) / n)};
}

double quantile_of(std::vector<double>& sorted, double q) {
    const auto last = static_cast<double>(sorted.size() - 1);
    return sorted[static_cast<std::size_t>(std::lround(q * last))];
}

CountBand band_of_counts(double time, std::vector<double> counts) {
    const auto n = static_cast<double>(counts.size());
    double sum = 0;
    double squares = 0;
    for (const double count : counts) {
        sum += count;
        squares += count * count;
    }
    std::sort(counts.begin(), counts.end());
    const double mean = sum / n;
    const base::Band range = base::band_between(quantile_of(counts, 0.1), mean, quantile_of(counts, 0.9));
    return {time,      mean,
            range.p10, quantile_of(counts, 0.5),
            range.p90, std::sqrt(std::max(0.0, squares / n - mean * mean) / n)};
}

std::vector<CountBand> summarise_counts(const std::vector<RunResult>& results,
                                        const std::vector<double>& times, bool only_clean) {
    std::vector<CountBand> bands;
    for (std::size_t t = 0; t < times.size(); ++t) {
        std::vector<double> counts;
        for (const RunResult& result : results) {
            if (result.clean || !only_clean) counts.push_back(result.counts[t]);
        }
        if (!counts.empty()) bands.push_back(band_of_counts(times[t], std::move(counts)));
    }
    return bands;
}

}  // namespace

SimulationResult simulate(const SimulationRequest& request) {
    base::expects(request.scenario != nullptr && request.runs > 0 && request.from <= request.to,
                  "a simulation has runs and a horizon");
    const World world(request);
    std::vector<RunResult> results(request.runs);
    tbb::parallel_for(std::uint32_t{0}, request.runs,
                      [&](std::uint32_t run) { results[run] = Outbreak(world, run).run(); });
    double clear = 0;
    double clean = 0;
    double both = 0;
    SimulationResult result;
    for (const RunResult& run : results) {
        clear += run.clear ? 1 : 0;
        clean += run.clean ? 1 : 0;
        both += run.clear && run.clean ? 1 : 0;
        result.cut_short += run.cut_short ? 1 : 0;
    }
    const double n = request.runs;
    result.clear = estimate_share(clear, n);
    result.clean = estimate_share(clean, n);
    result.clear_and_clean = estimate_share(both, n);
    result.clear_given_clean = clean > 0 ? estimate_share(both, clean) : Estimate{std::nan(""), std::nan("")};
    result.counts = summarise_counts(results, request.report_times, false);
    result.counts_given_clean = summarise_counts(results, request.report_times, true);
    return result;
}

}  // namespace mitefall::simulator
