#pragma once

#include <cstddef>
#include <limits>
#include <string>
#include <variant>
#include <vector>

#include "base/result.h"
#include "mites/parameters.h"
#include "mites/stages.h"
#include "records/facts.h"

// What happens where and when, in the words of the model. Times are days from the scenario's start.
namespace mitefall::scenario {

using PlaceIndex = std::size_t;
inline constexpr PlaceIndex nowhere = std::numeric_limits<PlaceIndex>::max();

struct Place {
    std::string name;
    bool is_room = false;
    PlaceIndex room = nowhere;          ///< of an enclosure; nowhere if it stands alone
    std::vector<PlaceIndex> adjoining;  ///< of a room
    records::Material material = records::Material::sealed;
    records::Climate climate;  ///< at the start
    int animals = 0;           ///< at the start; rooms have none
    bool set_apart = false;    ///< never lumped with others (a starting population lives here)
};

/// A chance, rate or time that may differ from draw to draw: a fixed number, a parameter, or a point between
/// two.
struct Amount {
    double fixed = 0;
    mites::ParameterMember parameter = nullptr;  ///< used instead of `fixed` when set
    mites::ParameterMember toward = nullptr;     ///< with `weight`: parameter + weight * (toward - parameter)
    double weight = 0;
    double factor = 1;

    [[nodiscard]] static Amount number(double value) { return {value, nullptr, nullptr, 0, 1}; }
    [[nodiscard]] static Amount drawn(mites::ParameterMember member) { return {0, member, nullptr, 0, 1}; }
    /// Never less than the parameter, whatever `toward` is: more of a treatment never does less.
    [[nodiscard]] double in(const mites::MiteParameters& draw) const;

    friend bool operator==(const Amount&, const Amount&) = default;
};

/// Each mite reached dies with this chance. `part`: share of the mites of that reach that are treated at all.
struct Kill {
    PlaceIndex place = 0;
    mites::Reach reach = mites::Reach::on_animal;
    Amount chance;
    double part = 1;
};

/// One kill on one animal. `part`: chance that this animal was treated, where only a share of them is known.
struct Dab {
    Amount chance;
    double part = 1;

    friend bool operator==(const Dab&, const Dab&) = default;
};

/// What was given to the animals of an enclosure one by one. A mite on them sits on each alike, and outlives
/// each kill on its animal by itself.
struct KillOnAnimals {
    PlaceIndex place = 0;
    std::vector<std::vector<Dab>> animals;  ///< every animal there, treated or not
    [[nodiscard]] double chance(const mites::MiteParameters& draw) const;
};

/// Something on the paper kills mobile nest mites: steadily while damp, fading once dry. Of several on one
/// paper the strongest counts, at every moment (docs/decisions/0030).
struct Residue {
    PlaceIndex place = 0;
    Amount level;      ///< per day
    Amount half_life;  ///< days
    double damp_until = 0;

    friend bool operator==(const Residue&, const Residue&) = default;
};

/// The residue is taken out with the paper.
struct ResidueGone {
    PlaceIndex place = 0;
};

/// A drug in the blood of an animal: a mite that begins a meal on it before `until` dies with this chance.
/// `part`: chance that this animal was given it, where only a share of them is known.
struct Dose {
    Amount chance;
    double part = 1;
    double until = 0;  ///< days

    friend bool operator==(const Dose&, const Dose&) = default;
};

/// What the animals of an enclosure have in their blood from now on, instead of what was said of them before.
/// A mite finds each of them alike. Those that feed now are not concerned.
struct Medicated {
    PlaceIndex place = 0;
    std::vector<std::vector<Dose>> animals;  ///< every animal there, dosed or not
    /// That a mite dies of the meal it begins at `time`: of an animal's doses in force the strongest counts.
    [[nodiscard]] double chance(const mites::MiteParameters& draw, double time) const;
    [[nodiscard]] bool acts_after(double time) const;
};

/// One animal goes from one enclosure to another with the mites on it.
struct MoveAnimal {
    PlaceIndex from = 0;
    PlaceIndex to = 0;
};

struct AnimalJoins {
    PlaceIndex place = 0;
};

/// An animal leaves for good, its mites with it.
struct AnimalLeaves {
    PlaceIndex place = 0;
};

/// Hands, bags or tools carry each eligible mite to the same stage elsewhere with this chance.
struct Contact {
    PlaceIndex from = 0;
    PlaceIndex to = 0;
    mites::Reach reach = mites::Reach::on_animal;
    Amount chance;
};

/// A check that found nothing: mites on the animal and wandering adults could be seen.
struct CleanCheck {
    PlaceIndex place = 0;
    Amount detection;                 ///< chance to see one mite on the animal
    Amount nest_part;                 ///< chance to see one wandering adult, as a part of that
    bool of_light = false;            ///< `detection` is the chance to show a light infestation instead
    Amount trap = Amount::number(0);  ///< chance that what was laid out shows one wandering adult
};

struct ClimateChange {
    PlaceIndex place = 0;
    records::Climate climate;
};

/// Mites come in from outside until `until`.
struct Import {
    PlaceIndex place = 0;
    mites::Stage stage = mites::Stage::adult_seeking_1;
    Amount rate;  ///< per day
    double until = 0;
};

using Happening = std::variant<Kill, Residue, ResidueGone, Medicated, MoveAnimal, AnimalJoins, AnimalLeaves,
                               Contact, CleanCheck, ClimateChange, Import, KillOnAnimals>;

struct Event {
    double time = 0;
    Happening what;
};

struct Scenario {
    std::vector<Place> places;
    std::vector<Event> events;  ///< ordered by time; at one instant in order of happening
};

/// Mites alive at one place at the start of a forecast.
struct MiteCount {
    PlaceIndex place = 0;
    mites::Stage stage = mites::Stage::egg;
    double count = 0;
    int substage = 0;  ///< 0: the stage has just begun
};

/// Animals in each place just before `time`.
[[nodiscard]] std::vector<int> animals_at(const Scenario& scenario, double time);

/// The place an event acts on, and for moves and contacts the place it leads to (else nowhere).
[[nodiscard]] PlaceIndex place_of(const Happening& what);
[[nodiscard]] PlaceIndex target_of(const Happening& what);

/// Whether the scenario makes sense: places exist and are of the right kind, chances lie in [0, 1], times are
/// finite and ordered, animals that move were there.
[[nodiscard]] base::Result<void> check_scenario(const Scenario& scenario);

/// Puts a residue on a paper that bears these; those that can never again be the strongest are taken off.
void lay(const Residue& fresh, std::vector<Residue>& on_paper);

/// Deaths per day of mobile nest mites by what is on the paper at `time`, which is not before any was laid.
[[nodiscard]] double hazard_of(const std::vector<Residue>& on_paper, const mites::MiteParameters& draw,
                               double time);

/// The scenario as it stands at `from`: what came before is done with, but for residues and drugs that still
/// act. Enclosures that differ only in their past become alike.
[[nodiscard]] Scenario forget_past(const Scenario& scenario, double from);

}  // namespace mitefall::scenario
