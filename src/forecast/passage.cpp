#include "forecast/passage.h"

#include <algorithm>

#include "base/contract.h"
#include "branching/expected_course.h"
#include "branching/side_by_side.h"

namespace mitefall::forecast {
namespace {

using branching::ExpectedCourse;
using branching::Lanes;
using MitesByType = std::vector<Lanes>;

/// Fewer expected mites in the enclosure than this are none: nothing could be said of their stages.
constexpr double least_alive = 1e-12;

bool acts_in_place(const scenario::Happening& what) {
    return std::holds_alternative<scenario::Kill>(what) ||
           std::holds_alternative<scenario::KillOnAnimals>(what) ||
           std::holds_alternative<scenario::Residue>(what) ||
           std::holds_alternative<scenario::ResidueGone>(what) ||
           std::holds_alternative<scenario::Medicated>(what) ||
           std::holds_alternative<scenario::ClimateChange>(what);
}

double last_look(const scenario::Scenario& scenario, double from, double to) {
    double last = ExpectedCourse::no_condition;
    for (const scenario::Event& event : scenario.events) {
        if (event.time >= from && event.time <= to &&
            std::holds_alternative<scenario::CleanCheck>(event.what))
            last = event.time;
    }
    return last;
}

branching::Network without_births(branching::Network network) {
    for (branching::Run& run : network.runs) run.births.count = 0;
    return network;
}

/// Calls `act` with the first type and the substages of each stage of a class.
template <class F>
void for_each_stage(const network::Layout& layout, std::size_t of_class, F act) {
    for (const mites::Stage stage : mites::all_stages)
        act(stage, layout.first[of_class][static_cast<std::size_t>(stage)], layout.substages(stage));
}

class Follower {
  public:
    explicit Follower(const PassageRequest& request)
        : request_(request),
          whole_(*request.known.scenario),
          alone_(alone(whole_, request.place, request.day_zero)),
          looked_(last_look(whole_, request.known.from, request.day_zero)) {
        set_apart(request.known.start, whole_);
        whole_.places.at(request.place).set_apart = true;
        classes_ = network::lump(whole_);
        passage_.draws.assign(draws().size(), std::vector<Shares>(request.times.size(), Shares{}));
        passage_.weights = draw_weights(request.known);
        log_clean_.assign(draws().size(), 0.0);
    }

    /// Blocks write to draws of their own.
    void run(std::size_t index) {
        const auto block = draws().subspan(index * branching::lane_count, branching::lane_count);
        const MitesByType there = alive_on_day_zero(block, index);
        const network::MiteNetwork one =
            network::compile(alone_, network::keep_apart(alone_), request_.known.ensemble->fixed, block);
        const branching::Network childless = without_births(one.network);
        const MitesByType eggs = only(there, one.layout, true);
        const MitesByType others = only(there, one.layout, false);
        const auto from_eggs = follow(childless, eggs);
        const auto from_others = follow(childless, others);
        const auto everybody = follow(one.network, there);
        for (std::size_t t = 0; t < request_.times.size(); ++t) {
            add_up(Cohort::egg, from_eggs[t], one.layout, t, index, 1);
            add_up(Cohort::later, from_others[t], one.layout, t, index, 1);
            add_up(Cohort::laid_since, everybody[t], one.layout, t, index, 1);
            add_up(Cohort::laid_since, from_eggs[t], one.layout, t, index, -1);
            add_up(Cohort::laid_since, from_others[t], one.layout, t, index, -1);
        }
    }

    [[nodiscard]] Passage take() {
        passage_.weights = base::weigh(passage_.weights, log_clean_);
        return std::move(passage_);
    }

    [[nodiscard]] std::span<const mites::MiteParameters> draws() const {
        const std::span<const mites::MiteParameters> all = request_.known.ensemble->draws;
        const std::size_t asked = request_.known.blocks * branching::lane_count;
        return asked == 0 ? all : all.first(std::min(asked, all.size()));
    }

  private:
    /// By type of the enclosure alone, together 1 in each draw; nothing in a draw without a mite there, which
    /// counts for nothing.
    MitesByType alive_on_day_zero(std::span<const mites::MiteParameters> block_draws, std::size_t index) {
        const auto& fixed = request_.known.ensemble->fixed;
        const network::MiteNetwork compiled = network::compile(whole_, classes_, fixed, block_draws);
        const CompiledBlock block{compiled, classes_, fixed, block_draws, index};
        const BlockStart start(request_.known.start, block, request_.known.from, request_.known.tolerance);
        const ExpectedCourse expected(compiled.network, request_.known.from, {request_.day_zero}, looked_,
                                      request_.known.tolerance);
        const Lanes clean = start.log_chance(expected.checks());
        const MitesByType all = expected.follow(start.numbers(&expected.checks())).front();
        MitesByType there;
        for_each_stage(compiled.layout, classes_.class_of[request_.place],
                       [&](mites::Stage, branching::TypeIndex first, std::uint32_t count) {
                           there.insert(there.end(), all.begin() + first, all.begin() + first + count);
                       });
        for (std::size_t lane = 0; lane < branching::lane_count; ++lane) {
            const std::size_t draw = index * branching::lane_count + lane;
            log_clean_[draw] = clean[lane];
            double alive = 0;
            for (const Lanes& type : there) alive += std::max(0.0, type[lane]);
            if (!(alive > least_alive)) passage_.weights[draw] = 0;
            for (Lanes& type : there)
                type[lane] = alive > least_alive ? std::max(0.0, type[lane]) / alive : 0;
        }
        return there;
    }

    static MitesByType only(MitesByType numbers, const network::Layout& layout, bool eggs) {
        for_each_stage(layout, 0, [&](mites::Stage stage, branching::TypeIndex first, std::uint32_t count) {
            if ((stage == mites::Stage::egg) != eggs)
                std::fill_n(numbers.begin() + first, count, Lanes::all(0));
        });
        return numbers;
    }

    [[nodiscard]] std::vector<MitesByType> follow(const branching::Network& network,
                                                  const MitesByType& start) const {
        return branching::expected_course(network, request_.day_zero, start, request_.times,
                                          request_.known.tolerance);
    }

    void add_up(Cohort cohort, const MitesByType& numbers, const network::Layout& layout, std::size_t time,
                std::size_t index, double factor) {
        for_each_stage(layout, 0, [&](mites::Stage stage, branching::TypeIndex first, std::uint32_t count) {
            const auto part = static_cast<std::size_t>(mites::life_stage_of(stage));
            for (std::size_t lane = 0; lane < branching::lane_count; ++lane) {
                double& sum = passage_.draws[index * branching::lane_count + lane][time]
                                            [static_cast<std::size_t>(cohort)][part];
                for (std::uint32_t m = 0; m < count; ++m) sum += factor * numbers[first + m][lane];
            }
        });
    }

    const PassageRequest& request_;
    scenario::Scenario whole_;
    scenario::Scenario alone_;
    double looked_;
    network::Classes classes_;
    Passage passage_;
    std::vector<double> log_clean_;
};

}  // namespace

scenario::Scenario alone(const scenario::Scenario& scenario, scenario::PlaceIndex place, double day_zero) {
    const scenario::Scenario later = scenario::forget_past(scenario, day_zero);
    scenario::Scenario one{{later.places.at(place)}, {}};
    one.places.front().room = scenario::nowhere;
    for (const scenario::Event& event : later.events) {
        if (!acts_in_place(event.what) || scenario::place_of(event.what) != place) continue;
        one.events.push_back(event);
        std::visit(
            [](auto& what) {
                if constexpr (requires { what.place; }) what.place = 0;
            },
            one.events.back().what);
    }
    return one;
}

std::optional<Passage> passage_of(const PassageRequest& request) {
    base::expects(request.known.scenario != nullptr && request.known.ensemble != nullptr,
                  "a scenario and parameters");
    base::expects(request.day_zero >= request.known.from, "day 0 is not before the start");
    Follower follower(request);
    const auto run = [&](std::size_t block) { follower.run(block); };
    if (!branching::side_by_side(follower.draws().size() / branching::lane_count, request.known.progress,
                                 run))
        return std::nullopt;
    return follower.take();
}

}  // namespace mitefall::forecast
