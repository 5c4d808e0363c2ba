#include "belief/lineage.h"
#include "scenario/actions.h"
#include "scenario/seen.h"

#include <algorithm>
#include <cmath>

#include "base/contract.h"

namespace mitefall::belief {

/// `left`: substages still to live through, the present one included.
struct Lineage::Mite {
    scenario::PlaceIndex place = 0;
    std::size_t spell = 0;
    mites::Stage stage = mites::Stage::egg;
    int left = 1;
    double time = 0;
    std::uint32_t introduction = 0;
};

Pace::Pace(const Terrain& terrain, const mites::FixedParameters& fixed_parameters,
           const mites::MiteParameters& one_draw)
    : fixed(&fixed_parameters), draw(&one_draw) {
    for (const records::Climate& climate : terrain.climates()) {
        auto& row = rates.emplace_back();
        for (const mites::Stage stage : mites::all_stages)
            row[static_cast<std::size_t>(stage)] = mites::stage_rates(stage, *fixed, *draw, climate);
        laying.push_back(mites::laying_rate(*fixed, *draw, climate));
    }
    for (std::size_t m = 0; m < eyes.size(); ++m) {
        const scenario::CleanCheck check = scenario::clean_check(0, static_cast<records::CheckMethod>(m));
        eyes[m] = {scenario::chance_to_be_seen(check, mites::Activity::adult_feeding, *fixed, *draw),
                   scenario::chance_to_be_seen(check, mites::Activity::adult_seeking, *fixed, *draw)};
    }
}

Outcome Lineage::run(const Pace& pace, std::span<const Founder> founders, std::size_t introductions,
                     base::RandomStream random) {
    pace_ = &pace;
    random_ = random;
    weight_ = 1;
    outcome_ = {};
    outcome_.cause.assign(introductions, 0.0);
    for (const Founder& founder : founders) {
        Mite mite{founder.place, 0, founder.stage, 0, founder.time, founder.introduction};
        mite.spell = terrain_.spell_at(mite.place, mite.time);
        mite.left = std::max(1, rates(mite).substages - founder.substage);
        if (enter(mite, founder.after)) follow(mite);
    }
    follow_eggs();
    for (const std::uint32_t find : terrain_.finds()) explain(find);
    for (auto& [look, mites] : outcome_.visible) {
        mites = visible_[look];
        visible_[look] = {};
    }
    merge_mites();
    return std::move(outcome_);
}

/// All that hatches from the eggs laid so far.
void Lineage::follow_eggs() {
    while (!eggs_.empty()) {
        thin_eggs();
        hatching_.swap(eggs_);
        eggs_.clear();
        for (const Egg& egg : hatching_) {
            Mite mite{egg.place,       terrain_.spell_at(egg.place, egg.time), mites::Stage::egg, 1, egg.time,
                      egg.introduction};
            mite.left = rates(mite).substages;
            follow(mite);
        }
    }
}

/// Finds are explained in their order: newcomers at one may be what a later one showed.
void Lineage::explain(std::uint32_t index) {
    const scenario::Look& look = terrain_.looks()[index];
    const Visible mites = visible_[index];
    const Eyes& eyes = pace_->eyes_of(look);
    const double likelihood = likelihood_of(look, mites, eyes, options_.errors);
    outcome_.finds.push_back({index, likelihood, doubt_of(look, mites, eyes, options_.errors)});
    if (options_.errors.unexplained > 0 && happens(options_.errors.unexplained / likelihood))
        add_newcomers(index);
}

void Lineage::add_newcomers(std::uint32_t index) {
    const scenario::Look& look = terrain_.looks()[index];
    const Eyes& eyes = pace_->eyes_of(look);
    const std::size_t spell = terrain_.spell_at(look.place, look.time);
    const bool on_animal = look.where == scenario::LookedAt::animal ||
                           (look.where == scenario::LookedAt::both && eyes.on_animal > 0 &&
                            terrain_.spells(look.place)[spell].animals > 0);
    const scenario::SeenRange seen = scenario::range_of(look.seen);
    const double shown = seen.low * std::pow(seen.high / seen.low, pace_->draw->sighting_quantile);
    const double chance = on_animal ? eyes.on_animal : eyes.off_animal;
    const double number = chance > 0 ? std::max(1.0, std::round(shown / chance)) : shown;
    const double followed = std::min(number, static_cast<double>(options_.crowd));
    outcome_.newcomers.push_back(index);
    outcome_.cause.push_back(0);
    weight_ = number / followed;
    for (int i = 0; i < static_cast<int>(followed); ++i) {
        Mite mite{
            look.place, spell,     on_animal ? mites::Stage::adult_feeding_1 : mites::Stage::adult_seeking_1,
            1,          look.time, static_cast<std::uint32_t>(outcome_.cause.size() - 1)};
        mite.left = rates(mite).substages;
        if (enter(mite, Terrain::order_of_look(look))) follow(mite);
    }
    follow_eggs();
}

/// Systematic sampling (one random offset): eggs stand in the order of their mothers, so families shrink
/// evenly.
void Lineage::thin_eggs() {
    if (eggs_.size() <= options_.crowd) return;
    const double step = static_cast<double>(eggs_.size()) / static_cast<double>(options_.crowd);
    const double offset = random_.uniform() * step;
    for (std::size_t i = 0; i < options_.crowd; ++i) {
        const auto from = static_cast<std::size_t>(offset + static_cast<double>(i) * step);
        eggs_[i] = eggs_[std::min(from, eggs_.size() - 1)];
    }
    eggs_.resize(options_.crowd);
    weight_ *= step;
}

void Lineage::follow(Mite mite) {
    while (true) {
        const auto& spells = terrain_.spells(mite.place);
        const bool more = mite.spell + 1 < spells.size();
        const Fate fate = live_until(mite, more ? spells[mite.spell + 1].begin : terrain_.at());
        if (fate == Fate::dead) return;
        if (fate == Fate::going_on) continue;
        if (!more) return arrive(mite);
        ++mite.spell;
        if (!enter(mite, 0)) return;
    }
}

const mites::StageRates& Lineage::rates(const Mite& mite) const {
    const std::uint32_t climate = terrain_.spells(mite.place)[mite.spell].climate;
    return pace_->rates[climate][static_cast<std::size_t>(mite.stage)];
}

/// A chain of substages is an Erlang time: the logarithm of a product of uniform numbers.
double Lineage::erlang(int substages, double rate) {
    constexpr double smallest = 1e-250;
    double product = 1;
    double sum = 0;
    for (int i = 0; i < substages; ++i) {
        product *= coarse_uniform();
        if (product < smallest) {
            sum -= std::log(product);
            product = 1;
        }
    }
    return (sum - std::log(product)) / rate;
}

/// Given how long a chain of changes takes, all but the last lie in that time uniformly: how many came before
/// `share` of it is binomial.
int Lineage::changes_within(int changes, double share) {
    int passed = 0;
    for (int i = 1; i < changes; ++i) passed += coarse_uniform() < share ? 1 : 0;
    return passed;
}

Lineage::Fate Lineage::live_until(Mite& mite, double limit) {
    const Spell& spell = terrain_.spells(mite.place)[mite.spell];
    const mites::StageRates& here = rates(mite);
    const mites::Activity activity = mites::activity_of(mite.stage);
    const bool hosts = spell.animals > 0 && !terrain_.scenario().places[mite.place].is_room;
    const double finding =
        mites::is_seeking(activity) && hosts ? mites::finding_rate(mite.stage, *pace_->draw) : 0;
    const double hazard = hazard_at(mite);
    const double walking = mites::wanders(activity) ? walking_rate(mite) : 0;
    const double others = here.loss + finding + hazard + walking;
    const double total = here.advance + others;
    if (!(total > 0)) {
        mite.time = limit;
        return Fate::at_limit;
    }
    const int grown = substages_before_other(mite, here.advance, others);
    const int changes = std::min(grown + 1, mite.left);
    const double wait = erlang(changes, total);
    const bool stopped = mite.time + wait > limit;
    const double lived = stopped ? limit - mite.time : wait;
    if (activity == mites::Activity::adult_laying) lay(mite, mite.time + lived);
    if (stopped) {
        mite.left -= changes_within(changes, lived / wait);
        mite.time = limit;
        return Fate::at_limit;
    }
    mite.time += lived;
    if (grown >= mite.left) return grow(mite);
    mite.left -= grown;
    return pick_fate(mite, random_.uniform() * others, here.loss, finding, hazard);
}

/// Each change is a step on with chance advance / (advance + others): how many come before the first other
/// change is geometric. `mite.left` or more: the stage is lived through. By inversion, with the few powers
/// there are rather than with logarithms.
int Lineage::substages_before_other(const Mite& mite, double advance, double others) {
    if (!(others > 0)) return mite.left;
    if (!(advance > 0)) return 0;
    const double chance = advance / (advance + others);
    const double picked = random_.uniform();
    int steps = 0;
    for (double all_on = chance; steps < mite.left && picked <= all_on; all_on *= chance) ++steps;
    return steps;
}

Lineage::Fate Lineage::pick_fate(Mite& mite, double pick, double loss, double finding, double hazard) {
    if ((pick -= loss) < 0) return Fate::dead;
    if ((pick -= finding) < 0) {
        const scenario::Medicated* const drugs = terrain_.spells(mite.place)[mite.spell].drugs;
        if (drugs != nullptr && happens(drugs->chance(*pace_->draw, mite.time))) return Fate::dead;
        change_stage(mite, mites::next_stage(mite.stage));
        return Fate::going_on;
    }
    // A residue can only have faded since the waiting time was drawn (thinning, Lewis & Shedler 1979).
    if ((pick -= hazard) < 0) return happens(hazard_at(mite) / hazard) ? Fate::dead : Fate::going_on;
    walk(mite);
    return Fate::going_on;
}

Lineage::Fate Lineage::grow(Mite& mite) {
    const mites::Activity activity = mites::activity_of(mite.stage);
    if (mites::is_seeking(activity)) return Fate::dead;
    if (activity == mites::Activity::adult_laying &&
        !happens(mites::chance_of_next_meal(mites::meal_of(mite.stage), *pace_->draw)))
        return Fate::dead;
    change_stage(mite, mites::next_stage(mite.stage));
    return Fate::going_on;
}

void Lineage::change_stage(Mite& mite, mites::Stage stage) {
    mite.stage = stage;
    mite.left = rates(mite).substages;
}

void Lineage::lay(const Mite& mite, double until) {
    const double rate = pace_->laying[terrain_.spells(mite.place)[mite.spell].climate];
    if (!(rate > 0)) return;
    for (double time = mite.time + random_.exponential(rate); time < until; time += random_.exponential(rate))
        eggs_.push_back({mite.place, time, mite.introduction});
}

double Lineage::hazard_at(const Mite& mite) const {
    const std::vector<scenario::Residue>& on_paper = terrain_.spells(mite.place)[mite.spell].on_paper;
    if (on_paper.empty() || !mites::reaches(mites::Reach::mobile_nest, mites::activity_of(mite.stage)))
        return 0;
    if (terrain_.scenario().places[mite.place].is_room) return 0;
    return scenario::hazard_of(on_paper, *pace_->draw, mite.time);
}

double Lineage::walking_rate(const Mite& mite) const {
    const scenario::Place& place = terrain_.scenario().places[mite.place];
    const mites::MiteParameters& draw = *pace_->draw;
    if (place.is_room) {
        return (terrain_.enclosures_of(mite.place).empty() ? 0 : draw.entering_rate) +
               static_cast<double>(place.adjoining.size()) * draw.room_crossing_rate;
    }
    if (place.room == scenario::nowhere) return 0;
    const double others = static_cast<double>(terrain_.enclosures_of(place.room).size()) - 1;
    return draw.leaving_rate * std::max(1.0, std::min(others, pace_->fixed->neighbours));
}

void Lineage::walk(Mite& mite) {
    const scenario::Place& place = terrain_.scenario().places[mite.place];
    const auto pick = [&](const std::vector<scenario::PlaceIndex>& places) {
        const auto n = static_cast<double>(places.size());
        return places[std::min(places.size() - 1, static_cast<std::size_t>(random_.uniform() * n))];
    };
    if (!place.is_room) {
        mite.place = place.room;
    } else {
        const auto& enclosures = terrain_.enclosures_of(mite.place);
        const double inward = enclosures.empty() ? 0 : pace_->draw->entering_rate;
        mite.place = happens(inward / walking_rate(mite)) ? pick(enclosures) : pick(place.adjoining);
    }
    mite.spell = terrain_.spell_at(mite.place, mite.time);
}

/// Takes the mite through what happens at the first instant of its spell from order `after` on, if it is
/// there at that instant; false if it dies. An animal that moves may take it along, to what happens next
/// there.
bool Lineage::enter(Mite& mite, std::size_t after) {
    const Spell* spell = &terrain_.spells(mite.place)[mite.spell];
    for (std::size_t i = 0; mite.time <= spell->begin && i < spell->incidents.size(); ++i) {
        const Incident& incident = spell->incidents[i];
        if (incident.order < after) continue;
        const scenario::PlaceIndex place = mite.place;
        if (!suffer(mite, incident)) return false;
        if (mite.place == place) continue;
        mite.spell = terrain_.spell_at(mite.place, mite.time);
        return enter(mite, incident.order + 1);
    }
    return true;
}

bool Lineage::suffer(Mite& mite, const Incident& incident) {
    if (incident.what != nullptr) return endure(mite, *incident.what, incident.animals_before);
    be_looked_at(mite, incident.look);
    return true;
}

bool Lineage::endure(Mite& mite, const scenario::Happening& what, int animals_before) {
    const mites::Activity activity = mites::activity_of(mite.stage);
    const mites::MiteParameters& draw = *pace_->draw;
    if (const auto* const kill = std::get_if<scenario::Kill>(&what))
        return !(mites::reaches(kill->reach, activity) && happens(kill->part * kill->chance.in(draw)));
    if (const auto* const given = std::get_if<scenario::KillOnAnimals>(&what))
        return !(mites::is_on_animal(activity) && happens(given->chance(draw)));
    if (std::holds_alternative<scenario::AnimalLeaves>(what))
        return !(mites::is_on_animal(activity) && happens(1.0 / animals_before));
    if (const auto* const move = std::get_if<scenario::MoveAnimal>(&what)) {
        if (mites::is_on_animal(activity) && happens(1.0 / animals_before)) mite.place = move->to;
    } else if (const auto* const contact = std::get_if<scenario::Contact>(&what)) {
        if (mites::reaches(contact->reach, activity) && happens(contact->chance.in(draw)))
            mite.place = contact->to;
    }
    return true;
}

void Lineage::be_looked_at(const Mite& mite, std::uint32_t index) {
    const scenario::Look& look = terrain_.looks()[index];
    const mites::Activity activity = mites::activity_of(mite.stage);
    const bool on_animal = look.where != scenario::LookedAt::nest && mites::is_on_animal(activity);
    const bool off_animal = look.where != scenario::LookedAt::animal && mites::shows_off_animal(activity);
    if (!on_animal && !off_animal) return;
    Visible& mites = visible_[index];
    if (mites.on_animal + mites.off_animal <= 0) outcome_.visible.push_back({index, {}});
    (on_animal ? mites.on_animal : mites.off_animal) += weight_;
    if (look.time < terrain_.at() || look.seen == records::SeenCount::none) return;
    outcome_.cause[mite.introduction] +=
        weight_ * (on_animal ? pace_->eyes_of(look).on_animal : pace_->eyes_of(look).off_animal);
}

void Lineage::arrive(const Mite& mite) {
    outcome_.alive = true;
    for (const std::uint32_t look : terrain_.last_looks(mite.place)) be_looked_at(mite, look);
    if (options_.collect)
        outcome_.mites.push_back({mite.place, mite.stage, weight_, rates(mite).substages - mite.left});
}

/// One row for those in the same place, stage and substage.
void Lineage::merge_mites() {
    auto& mites = outcome_.mites;
    const auto key = [](const scenario::MiteCount& m) { return std::tuple(m.place, m.stage, m.substage); };
    std::stable_sort(
        mites.begin(), mites.end(),
        [&](const scenario::MiteCount& a, const scenario::MiteCount& b) { return key(a) < key(b); });
    std::size_t kept = 0;
    for (std::size_t i = 0; i < mites.size(); ++i) {
        if (kept > 0 && key(mites[kept - 1]) == key(mites[i]))
            mites[kept - 1].count += mites[i].count;
        else
            mites[kept++] = mites[i];
    }
    mites.resize(kept);
    mites.shrink_to_fit();
}

}  // namespace mitefall::belief
