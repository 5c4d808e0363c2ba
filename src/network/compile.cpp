#include "network/compile.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/contract.h"
#include "mites/rates.h"
#include "network/paper.h"
#include "scenario/seen.h"

namespace mitefall::network {
namespace {

static_assert(mites::draws_per_block == branching::lane_count, "a block of draws fills the lanes");

/// What bears on the rates of a place at one moment.
struct PlaceState {
    records::Climate climate;
    int animals = 0;
    const scenario::Medicated* drugs = nullptr;
};

/// Where the values of one class stand in a value table.
struct ValueLayout {
    std::array<branching::ValueIndex, mites::stage_total> advance{}, loss{}, finding{}, leaving{}, laying{},
        next_meal{};
};

class Compiler {
  public:
    Compiler(const scenario::Scenario& scenario, const Classes& classes, const mites::FixedParameters& fixed,
             std::span<const mites::MiteParameters> draws)
        : scenario_(scenario), classes_(classes), fixed_(fixed), draws_(draws) {
        base::expects(draws.size() == branching::lane_count, "a block of draws fills the lanes");
        for (const mites::MiteParameters& draw : draws) {
            base::expects(draw.erlang_shape == draws[0].erlang_shape, "a block of draws shares its shape");
        }
    }

    MiteNetwork compile() {
        lay_out_types();
        count_enclosures();
        one_ = new_value();
        for (std::size_t c = 0; c < classes_.members.size(); ++c) add_class(c);
        add_rate_tables();
        for (const scenario::Event& event : scenario_.events) {
            std::visit([&](const auto& what) { add_event(event.time, what); }, event.what);
        }
        for (const auto& [place, papers] : papers_) {
            for (const Paper& paper : papers) add_hazards(place, paper);
        }
        return std::move(result_);
    }

  private:
    [[nodiscard]] scenario::PlaceIndex representative(std::size_t c) const {
        return classes_.members[c].front();
    }
    [[nodiscard]] bool is_representative(scenario::PlaceIndex place) const {
        return representative(classes_.class_of[place]) == place;
    }
    [[nodiscard]] const scenario::Place& place_of_class(std::size_t c) const {
        return scenario_.places[representative(c)];
    }
    [[nodiscard]] branching::TypeIndex type_of(scenario::PlaceIndex place, mites::Stage stage) const {
        return result_.layout.first[classes_.class_of[place]][static_cast<std::size_t>(stage)];
    }
    [[nodiscard]] branching::TypeIndex type_in(std::size_t c, mites::Stage stage) const {
        return result_.layout.first[c][static_cast<std::size_t>(stage)];
    }
    [[nodiscard]] std::uint32_t substages(mites::Stage stage) const {
        return result_.layout.substages(stage);
    }
    branching::ValueIndex new_value() { return value_count_++; }
    [[nodiscard]] branching::Lanes lanes_of(const scenario::Amount& amount) const {
        return branching::for_each_lane([&](std::size_t lane) { return amount.in(draws_[lane]); });
    }

    void lay_out_types() {
        Layout& layout = result_.layout;
        layout.erlang_shape = draws_[0].erlang_shape;
        layout.unfed_shape = fixed_.unfed_shape;
        layout.first.resize(classes_.members.size());
        branching::TypeIndex next = 0;
        for (std::size_t c = 0; c < classes_.members.size(); ++c) {
            for (const mites::Stage stage : mites::all_stages) {
                const bool present =
                    !place_of_class(c).is_room || mites::lives_in_room(mites::activity_of(stage));
                layout.first[c][static_cast<std::size_t>(stage)] = present ? next : branching::no_type;
                if (present) next += layout.substages(stage);
            }
        }
        result_.network.type_count = next;
    }

    void count_enclosures() {
        enclosures_in_.assign(scenario_.places.size(), 0);
        for (scenario::PlaceIndex p = 0; p < scenario_.places.size(); ++p) {
            const scenario::Place& place = scenario_.places[p];
            if (place.is_room || place.room == scenario::nowhere) continue;
            ++enclosures_in_[place.room];
            ++classes_in_[place.room][classes_.class_of[p]];
        }
    }

    void add_class(std::size_t c) {
        value_layouts_.emplace_back();
        for (const mites::Stage stage : mites::all_stages) {
            if (type_in(c, stage) != branching::no_type) add_run(c, stage);
        }
    }

    void add_run(std::size_t c, mites::Stage stage) {
        branching::Network& network = result_.network;
        ValueLayout& values = value_layouts_[c];
        const auto s = static_cast<std::size_t>(stage);
        branching::Run run;
        run.first = type_in(c, stage);
        run.count = substages(stage);
        run.advance = values.advance[s] = new_value();
        run.loss = values.loss[s] = new_value();
        run.exits.first = static_cast<std::uint32_t>(network.exits.size());
        run.ends.first = static_cast<std::uint32_t>(network.ends.size());
        run.births.first = static_cast<std::uint32_t>(network.births.size());
        add_exits(c, stage);
        add_end(c, stage);
        add_births(c, stage);
        run.exits.count = static_cast<std::uint32_t>(network.exits.size()) - run.exits.first;
        run.ends.count = static_cast<std::uint32_t>(network.ends.size()) - run.ends.first;
        run.births.count = static_cast<std::uint32_t>(network.births.size()) - run.births.first;
        network.runs.push_back(run);
        run_class_.push_back(c);
        run_stage_.push_back(stage);
    }

    void add_exits(std::size_t c, mites::Stage stage) {
        const scenario::Place& place = place_of_class(c);
        ValueLayout& values = value_layouts_[c];
        const auto s = static_cast<std::size_t>(stage);
        if (mites::is_seeking(mites::activity_of(stage)) && !place.is_room) {
            values.finding[s] = new_value();
            result_.network.exits.push_back({type_in(c, mites::next_stage(stage)), false, values.finding[s]});
        }
        if (!mites::wanders(mites::activity_of(stage))) return;
        if (place.is_room) {
            add_room_exits(c, stage);
        } else if (place.room != scenario::nowhere) {
            values.leaving[s] = new_value();
            result_.network.exits.push_back({type_of(place.room, stage), true, values.leaving[s]});
        }
    }

    /// From a room into its enclosures, any of them alike, and into adjoining rooms.
    void add_room_exits(std::size_t c, mites::Stage stage) {
        const scenario::PlaceIndex room = representative(c);
        for (const auto& [other, members] : classes_in_[room]) {
            const double part = members / enclosures_in_[room];
            constant_rates_.push_back({new_value(), &mites::MiteParameters::entering_rate, part});
            result_.network.exits.push_back({type_in(other, stage), true, constant_rates_.back().value});
        }
        for (const scenario::PlaceIndex next_room : scenario_.places[room].adjoining) {
            constant_rates_.push_back({new_value(), &mites::MiteParameters::room_crossing_rate, 1});
            result_.network.exits.push_back({type_of(next_room, stage), true, constant_rates_.back().value});
        }
    }

    void add_end(std::size_t c, mites::Stage stage) {
        const mites::Activity activity = mites::activity_of(stage);
        if (mites::is_seeking(activity)) return;  // starved
        if (activity != mites::Activity::adult_laying) {
            result_.network.ends.push_back({type_in(c, mites::next_stage(stage)), one_});
        } else if (mites::meal_of(stage) < mites::meal_count) {
            const branching::ValueIndex share = value_layouts_[c].next_meal[static_cast<std::size_t>(stage)] =
                new_value();
            result_.network.ends.push_back({type_in(c, mites::next_stage(stage)), share});
        }
    }

    void add_births(std::size_t c, mites::Stage stage) {
        if (mites::activity_of(stage) != mites::Activity::adult_laying) return;
        const branching::ValueIndex rate = value_layouts_[c].laying[static_cast<std::size_t>(stage)] =
            new_value();
        result_.network.births.push_back({type_in(c, mites::Stage::egg), rate});
    }

    // Rates over time
    // ------------------------------------------------------------------------------------------

    [[nodiscard]] std::vector<PlaceState> starting_states() const {
        std::vector<PlaceState> states;
        for (const scenario::Place& place : scenario_.places)
            states.push_back({place.climate, place.animals, nullptr});
        return states;
    }

    static bool changes_rates(const scenario::Happening& what) {
        return std::holds_alternative<scenario::MoveAnimal>(what) ||
               std::holds_alternative<scenario::AnimalJoins>(what) ||
               std::holds_alternative<scenario::AnimalLeaves>(what) ||
               std::holds_alternative<scenario::ClimateChange>(what) ||
               std::holds_alternative<scenario::Medicated>(what);
    }

    static void change(const scenario::Happening& what, std::vector<PlaceState>& states) {
        if (const auto* const move = std::get_if<scenario::MoveAnimal>(&what)) {
            --states[move->from].animals;
            ++states[move->to].animals;
        } else if (const auto* const join = std::get_if<scenario::AnimalJoins>(&what)) {
            ++states[join->place].animals;
        } else if (const auto* const leave = std::get_if<scenario::AnimalLeaves>(&what)) {
            --states[leave->place].animals;
        } else if (const auto* const climate = std::get_if<scenario::ClimateChange>(&what)) {
            states[climate->place].climate = climate->climate;
        } else if (const auto* const drugs = std::get_if<scenario::Medicated>(&what)) {
            states[drugs->place].drugs = drugs;
        }
    }

    void add_rate_tables() {
        std::vector<double> times{0};
        for (const scenario::Event& event : scenario_.events) {
            if (changes_rates(event.what)) times.push_back(event.time);
            if (const auto* const drugs = std::get_if<scenario::Medicated>(&event.what)) {
                for (const std::vector<scenario::Dose>& doses : drugs->animals) {
                    for (const scenario::Dose& dose : doses) times.push_back(std::max(0.0, dose.until));
                }
            }
        }
        std::sort(times.begin(), times.end());
        times.erase(std::unique(times.begin(), times.end()), times.end());
        std::vector<PlaceState> states = starting_states();
        std::size_t next = 0;
        for (const double time : times) {
            for (; next < scenario_.events.size() && scenario_.events[next].time <= time; ++next) {
                change(scenario_.events[next].what, states);
            }
            result_.network.segments.push_back(
                {time, static_cast<std::uint32_t>(result_.network.values.size())});
            result_.network.values.push_back(rate_table(states, time));
        }
    }

    [[nodiscard]] std::vector<branching::Lanes> rate_table(const std::vector<PlaceState>& states,
                                                           double time) const {
        std::vector<branching::Lanes> table(value_count_);
        table[one_] = branching::Lanes::all(1);
        for (const ConstantRate& rate : constant_rates_) {
            table[rate.value] = branching::for_each_lane(
                [&](std::size_t lane) { return rate.part * (draws_[lane].*rate.member); });
        }
        for (std::size_t r = 0; r < run_class_.size(); ++r) {
            fill_run(table, run_class_[r], run_stage_[r], states[representative(run_class_[r])], time);
        }
        return table;
    }

    void fill_run(std::vector<branching::Lanes>& table, std::size_t c, mites::Stage stage,
                  const PlaceState& state, double time) const {
        const ValueLayout& values = value_layouts_[c];
        const scenario::Place& place = place_of_class(c);
        const auto s = static_cast<std::size_t>(stage);
        for (std::size_t lane = 0; lane < branching::lane_count; ++lane) {
            const mites::MiteParameters& draw = draws_[lane];
            const mites::StageRates rates = mites::stage_rates(stage, fixed_, draw, state.climate);
            table[values.advance[s]][lane] = rates.advance;
            table[values.loss[s]][lane] = rates.loss;
            if (mites::is_seeking(mites::activity_of(stage)) && !place.is_room) {
                const double finding = state.animals > 0 ? mites::finding_rate(stage, draw) : 0;
                const double killed = state.drugs != nullptr ? state.drugs->chance(draw, time) : 0;
                table[values.finding[s]][lane] = finding * (1 - killed);
                table[values.loss[s]][lane] += finding * killed;
            }
            if (mites::wanders(mites::activity_of(stage)) && !place.is_room &&
                place.room != scenario::nowhere) {
                table[values.leaving[s]][lane] = draw.leaving_rate * neighbours_of(place);
            }
            if (mites::activity_of(stage) == mites::Activity::adult_laying) {
                table[values.laying[s]][lane] = mites::laying_rate(fixed_, draw, state.climate);
                if (mites::meal_of(stage) < mites::meal_count) {
                    table[values.next_meal[s]][lane] =
                        mites::chance_of_next_meal(mites::meal_of(stage), draw);
                }
            }
        }
    }

    [[nodiscard]] double neighbours_of(const scenario::Place& place) const {
        return std::clamp(enclosures_in_[place.room] - 1.0, 1.0, std::max(1.0, fixed_.neighbours));
    }

    // Events
    // ---------------------------------------------------------------------------------------------------

    branching::Jump& add_jump(double time, scenario::PlaceIndex place, mites::Stage stage) {
        branching::Jump jump;
        jump.time = time;
        jump.first = type_of(place, stage);
        jump.count = substages(stage);
        jump.keep = branching::Lanes::all(1);
        result_.network.jumps.push_back(jump);
        return result_.network.jumps.back();
    }

    template <class F>
    void for_reached_stages(scenario::PlaceIndex place, mites::Reach reach, F act) {
        for (const mites::Stage stage : mites::all_stages) {
            if (mites::reaches(reach, mites::activity_of(stage)) &&
                type_of(place, stage) != branching::no_type)
                act(stage);
        }
    }

    void kill(double time, scenario::PlaceIndex place, mites::Reach reach, const branching::Lanes& chance) {
        for_reached_stages(place, reach, [&](mites::Stage stage) {
            add_jump(time, place, stage).keep =
                branching::for_each_lane([&](std::size_t lane) { return 1 - chance[lane]; });
        });
    }

    void carry(double time, scenario::PlaceIndex from, scenario::PlaceIndex to, mites::Reach reach,
               const branching::Lanes& chance) {
        for_reached_stages(from, reach, [&](mites::Stage stage) {
            branching::Jump& jump = add_jump(time, from, stage);
            jump.keep = branching::for_each_lane([&](std::size_t lane) { return 1 - chance[lane]; });
            jump.move = chance;
            jump.target = type_of(to, stage);
        });
    }

    void add_event(double time, const scenario::Kill& event) {
        if (!is_representative(event.place)) return;
        kill(time, event.place, event.reach, branching::for_each_lane([&](std::size_t lane) {
                 return event.chance.in(draws_[lane]) * event.part;
             }));
    }

    void add_event(double time, const scenario::Residue& event) {
        if (!is_representative(event.place)) return;
        std::vector<Paper>& papers = papers_[event.place];
        if (papers.empty() || papers.back().is_gone()) papers.emplace_back();
        papers.back().lay(time, event, lanes_of(event.level), lanes_of(event.half_life));
    }

    void add_event(double time, const scenario::ResidueGone& event) {
        const auto found = papers_.find(event.place);
        if (found != papers_.end()) found->second.back().take_out(time);
    }

    void add_hazards(scenario::PlaceIndex place, const Paper& paper) {
        for (branching::HazardWindow& window : paper.strongest()) {
            for (std::size_t r = 0; r < run_class_.size(); ++r) {
                const bool here = run_class_[r] == classes_.class_of[place];
                if (here && mites::reaches(mites::Reach::mobile_nest, mites::activity_of(run_stage_[r])))
                    window.runs.push_back(static_cast<std::uint32_t>(r));
            }
            result_.network.hazards.push_back(std::move(window));
        }
    }

    void add_event(double time, const scenario::KillOnAnimals& event) {
        if (!is_representative(event.place)) return;
        kill(time, event.place, mites::Reach::on_animal,
             branching::for_each_lane([&](std::size_t lane) { return event.chance(draws_[lane]); }));
    }

    void add_event(double, const scenario::Medicated&) {}

    void add_event(double time, const scenario::MoveAnimal& event) {
        const int there = animals_in_order_[event.from];
        if (is_representative(event.from)) {
            carry(time, event.from, event.to, mites::Reach::on_animal, branching::Lanes::all(1.0 / there));
        }
        --animals_in_order_[event.from];
        ++animals_in_order_[event.to];
    }

    void add_event(double, const scenario::AnimalJoins& event) { ++animals_in_order_[event.place]; }

    void add_event(double time, const scenario::AnimalLeaves& event) {
        if (is_representative(event.place)) {
            kill(time, event.place, mites::Reach::on_animal,
                 branching::Lanes::all(1.0 / animals_in_order_[event.place]));
        }
        --animals_in_order_[event.place];
    }

    void add_event(double time, const scenario::Contact& event) {
        if (is_representative(event.from))
            carry(time, event.from, event.to, event.reach, lanes_of(event.chance));
    }

    void add_event(double time, const scenario::CleanCheck& event) {
        if (!is_representative(event.place)) return;
        for (const mites::Stage stage : mites::all_stages) {
            const branching::Lanes seen = branching::for_each_lane([&](std::size_t lane) {
                return scenario::chance_to_be_seen(event, mites::activity_of(stage), fixed_, draws_[lane]);
            });
            if (*std::max_element(seen.x.begin(), seen.x.end()) == 0) continue;
            branching::Jump& jump = add_jump(time, event.place, stage);
            jump.seen = seen;
            jump.keep = branching::for_each_lane([&](std::size_t lane) { return 1 - seen[lane]; });
        }
    }

    void add_event(double, const scenario::ClimateChange&) {}

    void add_event(double time, const scenario::Import& event) {
        // A stream into every member is a stream of as many times the rate into the class.
        result_.network.sources.push_back(
            {time, event.until, type_of(event.place, event.stage), lanes_of(event.rate)});
    }

    struct ConstantRate {
        branching::ValueIndex value;
        mites::ParameterMember member;
        double part;
    };

    const scenario::Scenario& scenario_;
    const Classes& classes_;
    const mites::FixedParameters& fixed_;
    std::span<const mites::MiteParameters> draws_;
    MiteNetwork result_;
    std::vector<double> enclosures_in_;
    std::map<scenario::PlaceIndex, std::map<std::size_t, double>>
        classes_in_;  ///< per room: members of each class
    std::vector<ValueLayout> value_layouts_;
    std::vector<ConstantRate> constant_rates_;
    std::vector<std::size_t> run_class_;
    std::vector<mites::Stage> run_stage_;
    std::map<scenario::PlaceIndex, std::vector<Paper>> papers_;
    std::vector<int> animals_in_order_ = scenario::animals_at(scenario_, 0);
    branching::ValueIndex value_count_ = 0;
    branching::ValueIndex one_ = 0;
};

}  // namespace

MiteNetwork compile(const scenario::Scenario& scenario, const Classes& classes,
                    const mites::FixedParameters& fixed, std::span<const mites::MiteParameters> draws) {
    return Compiler(scenario, classes, fixed, draws).compile();
}

}  // namespace mitefall::network
