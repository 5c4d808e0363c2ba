#include "belief/lineage.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>
#include <utility>

#include "base/contract.h"
#include "base/power.h"
#include "belief/crowd.h"
#include "scenario/actions.h"
#include "scenario/seen.h"

namespace mitefall::belief {

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
    Course course;
    course.to_come.assign(founders.begin(), founders.end());
    course.cause.assign(introductions, 0.0);
    Outcome outcome;
    outcome.sights = advance(pace, course, terrain_.at(), random);
    outcome.newcomers = std::move(course.newcomers);
    outcome.cause = std::move(course.cause);
    outcome.alive = !course.mites.empty();
    outcome.mites = counted(terrain_, pace, course.mites);
    return outcome;
}

Sights Lineage::advance(const Pace& pace, Course& course, double until, base::RandomStream random) {
    pace_ = &pace;
    random_ = random;
    until_ = until;
    parted_ = 0;
    course_ = &course;
    const double begin = std::exchange(course.time, until);
    for (const Living& living : std::exchange(course.mites, {})) {
        Mite mite = woken(living, begin);
        if (enter(mite, 0)) follow(mite);
    }
    for (const Founder& founder : std::exchange(course.to_come, {})) let_in(founder);
    follow_eggs();
    const bool ends = until >= terrain_.at();
    for (const std::uint32_t find : terrain_.finds()) {
        const double time = terrain_.looks()[find].time;
        if (time >= begin && (time < until || ends)) explain(find);
    }
    thin_mites();
    return take_sights();
}

Lineage::Mite Lineage::woken(const Living& living, double time) const {
    return {living.place, terrain_.spell_at(living.place, time),
            living.stage, living.left,
            time,         living.introduction,
            living.weight};
}

/// Unless it comes in later.
void Lineage::let_in(const Founder& founder) {
    if (founder.time >= until_ && until_ < terrain_.at()) return course_->to_come.push_back(founder);
    Mite mite{founder.place, 0, founder.stage, 0, founder.time, founder.introduction};
    mite.spell = terrain_.spell_at(mite.place, mite.time);
    mite.left = std::max(1, rates(mite).substages - founder.substage);
    if (enter(mite, founder.after)) follow(mite);
}

Sights Lineage::take_sights() {
    for (auto& [look, mites] : sights_.visible) mites = std::exchange(visible_[look], {});
    return std::exchange(sights_, {});
}

/// All that hatches from the eggs laid so far.
void Lineage::follow_eggs() {
    follow_apart();
    while (!eggs_.empty()) {
        thin_crowd(eggs_, options_.eggs, random_, thinned_eggs_);
        hatching_.swap(eggs_);
        eggs_.clear();
        for (const Egg& egg : hatching_) {
            Mite mite{egg.place, terrain_.spell_at(egg.place, egg.time), mites::Stage::egg, 1, egg.time};
            mite.introduction = egg.introduction;
            mite.weight = egg.weight;
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
    sights_.finds.push_back({index, likelihood, doubt_of(look, mites, eyes, options_.errors)});
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
    const double followed = std::min(number, static_cast<double>(options_.eggs.most));
    course_->newcomers.push_back(index);
    course_->cause.push_back(0);
    for (int i = 0; i < static_cast<int>(followed); ++i) {
        Mite mite{look.place,
                  spell,
                  on_animal ? mites::Stage::adult_feeding_1 : mites::Stage::adult_seeking_1,
                  1,
                  look.time,
                  static_cast<std::uint32_t>(course_->cause.size() - 1),
                  number / followed};
        mite.left = rates(mite).substages;
        if (enter(mite, Terrain::order_of_look(look))) follow(mite);
    }
    follow_eggs();
}

void Lineage::follow(const Mite& mite) {
    follow_one(mite);
    follow_apart();
}

void Lineage::follow_apart() {
    while (!apart_.empty()) {
        const Mite next = apart_[apart_.size() - 1];
        apart_.pop_back();
        follow_one(next);
    }
}

void Lineage::follow_one(Mite mite) {
    while (true) {
        const auto& spells = terrain_.spells(mite.place);
        const bool more = mite.spell + 1 < spells.size();
        const double end = more ? spells[mite.spell + 1].begin : terrain_.at();
        const Fate fate = live_until(mite, std::min(end, until_));
        if (fate == Fate::dead) return;
        if (fate == Fate::going_on) continue;
        if (!more || end >= until_) return stay(mite);
        ++mite.spell;
        if (!enter(mite, 0)) return;
    }
}

/// Alive when the stretch ends.
void Lineage::stay(const Mite& mite) {
    if (until_ >= terrain_.at()) {
        for (const std::uint32_t look : terrain_.last_looks(mite.place)) be_looked_at(mite, look);
    }
    course_->mites.push_back(
        {static_cast<std::uint32_t>(mite.place), mite.introduction, mite.stage, mite.left, mite.weight});
}

/// One of a crowd that walks out becomes those it stands for.
void Lineage::part(Mite& mite) {
    if (mite.weight <= 1 || parted_ >= options_.mites.most) return;
    const double whole = std::floor(mite.weight + random_.uniform());
    mite.weight = 1;
    send_apart(mite, whole - 1);
}

/// `number` mites like this one, in pieces of equal weight; few, where so many have parted in this stretch
/// that no place can depend on one of them.
void Lineage::send_apart(Mite mite, double number) {
    constexpr double most_pieces = 16;
    const double pieces =
        parted_ < options_.mites.most ? std::min(number, most_pieces) : std::min(number, 1.0);
    mite.weight = number / std::max(1.0, pieces);
    parted_ += static_cast<std::size_t>(pieces);
    for (int i = 0; i < static_cast<int>(pieces); ++i) apart_.push_back(mite);
}

const mites::StageRates& Lineage::rates(const Mite& mite) const {
    const std::uint32_t climate = terrain_.spells(mite.place)[mite.spell].climate;
    return pace_->rates[climate][static_cast<std::size_t>(mite.stage)];
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
    const double wait = random_.erlang(changes, total);
    const bool stopped = mite.time + wait > limit;
    const double lived = stopped ? limit - mite.time : wait;
    if (activity == mites::Activity::adult_laying) lay(mite, mite.time + lived);
    if (stopped) {
        // Given how long they take, all changes but the last lie in that time uniformly.
        mite.left -= random_.successes_of_few(changes - 1, lived / wait);
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
    if (picked <= base::power(chance, mite.left)) return mite.left;
    int steps = 0;
    for (double all_on = chance; steps < mite.left && picked <= all_on; all_on *= chance) ++steps;
    return steps;
}

Lineage::Fate Lineage::pick_fate(Mite& mite, double pick, double loss, double finding, double hazard) {
    if ((pick -= loss) < 0) return Fate::dead;
    if ((pick -= finding) < 0) {
        const scenario::Medicated* const drugs = terrain_.spells(mite.place)[mite.spell].drugs;
        if (drugs != nullptr && !is_spared(mite, drugs->chance(*pace_->draw, mite.time))) return Fate::dead;
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
        eggs_.push_back({mite.place, time, mite.introduction, mite.weight});
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
    if (!place.is_room) part(mite);
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
    if (incident.what != nullptr) return endure(mite, incident);
    be_looked_at(mite, incident.look);
    return true;
}

bool Lineage::endure(Mite& mite, const Incident& incident) {
    const scenario::Happening& what = *incident.what;
    const double of_one_animal = 1.0 / incident.animals_before;
    const mites::Activity activity = mites::activity_of(mite.stage);
    const mites::MiteParameters& draw = *pace_->draw;
    if (const auto* const kill = std::get_if<scenario::Kill>(&what))
        return !mites::reaches(kill->reach, activity) || is_spared(mite, kill->part * kill->chance.in(draw));
    if (const auto* const given = std::get_if<scenario::KillOnAnimals>(&what))
        return !mites::is_on_animal(activity) || is_spared(mite, given->chance(draw));
    if (std::holds_alternative<scenario::AnimalLeaves>(what))
        return !mites::is_on_animal(activity) || is_spared(mite, of_one_animal);
    if (const auto* const move = std::get_if<scenario::MoveAnimal>(&what)) {
        if (mites::is_on_animal(activity)) carry(mite, of_one_animal, move->to, incident.order);
    } else if (const auto* const contact = std::get_if<scenario::Contact>(&what)) {
        if (mites::reaches(contact->reach, activity))
            carry(mite, contact->chance.in(draw), contact->to, incident.order);
    }
    return true;
}

/// Each of those it stands for is carried or not by itself; they go through what happens next there.
void Lineage::carry(Mite& mite, double chance, scenario::PlaceIndex to, std::size_t order) {
    if (mite.weight <= 1) {
        if (happens(chance)) mite.place = to;
        return;
    }
    const double whole = std::floor(mite.weight + random_.uniform());
    const double carried = successes(whole, chance);
    mite.weight = whole;
    if (carried == whole) mite.place = to;
    if (carried == whole || carried == 0) return;
    mite.weight -= carried;
    Mite other = mite;
    other.place = to;
    other.spell = terrain_.spell_at(to, mite.time);
    other.weight = carried;
    if (enter(other, order + 1)) send_apart(other, other.weight);
}

/// Each of those it stands for dies or not by itself; false if all do.
bool Lineage::is_spared(Mite& mite, double chance_to_die) {
    if (mite.weight <= 1) return !happens(chance_to_die);
    mite.weight = successes(std::floor(mite.weight + random_.uniform()), 1 - chance_to_die);
    return mite.weight > 0;
}

/// A binomial number: where few are expected, counted from one success to the next; where both sides are
/// many, a normal number of the same mean and spread, rounded.
double Lineage::successes(double trials, double chance) {
    constexpr double many = 64;
    if (chance <= 0) return 0;
    if (chance >= 1) return trials;
    if (chance > 0.5) return trials - successes(trials, 1 - chance);
    if (trials * chance > many) {
        const double spread = std::sqrt(trials * chance * (1 - chance));
        const double angle = 2 * std::numbers::pi * random_.uniform();
        const double normal = std::sqrt(-2 * std::log(random_.uniform())) * std::cos(angle);
        return std::clamp(std::round(trials * chance + spread * normal), 0.0, trials);
    }
    double count = 0;
    for (double trial = 0;; ++count) {
        trial += 1 + random_.failures(chance);
        if (trial > trials) return count;
    }
}

void Lineage::be_looked_at(const Mite& mite, std::uint32_t index) {
    const scenario::Look& look = terrain_.looks()[index];
    const mites::Activity activity = mites::activity_of(mite.stage);
    if (!shows(look, activity)) return;
    const bool on_animal = mites::is_on_animal(activity);
    Visible& mites = visible_[index];
    if (mites.on_animal + mites.off_animal <= 0) sights_.visible.push_back({index, {}});
    (on_animal ? mites.on_animal : mites.off_animal) += mite.weight;
    if (look.time < terrain_.at() || look.seen == records::SeenCount::none) return;
    course_->cause[mite.introduction] += mite.weight * chance_to_see(look, pace_->eyes_of(look), activity);
}

/// So many of each place as it may keep: fewer of many, more of what was thinned when there were many.
void Lineage::thin_mites() {
    std::vector<Living>& mites = course_->mites;
    const bool is_crowd =
        std::any_of(mites.begin(), mites.end(), [](const Living& m) { return m.weight > 1; });
    if (mites.size() <= options_.mites.least && !is_crowd) return;
    // Place, stage and substages left as one number: most are told apart by it.
    const auto where = [](const Living& m) {
        return std::uint64_t{m.place} << 32U | static_cast<std::uint64_t>(m.stage) << 16U |
               static_cast<std::uint64_t>(m.left);
    };
    std::sort(mites.begin(), mites.end(), [&](const Living& a, const Living& b) {
        return where(a) != where(b) ? where(a) < where(b)
                                    : std::tie(a.introduction, a.weight) < std::tie(b.introduction, b.weight);
    });
    thin_crowd(mites, options_.mites, random_, thinned_mites_);
    if (is_crowd) part_where_few(mites, options_.mites.each, thinned_mites_);
}

std::vector<scenario::MiteCount> counted(const Terrain& terrain, const Pace& pace,
                                         const std::vector<Living>& living) {
    std::vector<scenario::MiteCount> mites;
    for (const Living& one : living) {
        const std::uint32_t climate = terrain.spells(one.place).back().climate;
        const int substages = pace.rates[climate][static_cast<std::size_t>(one.stage)].substages;
        mites.push_back({one.place, one.stage, one.weight, substages - one.left});
    }
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
    return mites;
}

}  // namespace mitefall::belief
