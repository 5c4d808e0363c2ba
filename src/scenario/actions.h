#pragma once

#include <span>
#include <vector>

#include "records/method.h"
#include "scenario/residents.h"
#include "scenario/scenario.h"
#include "units/amounts.h"

namespace mitefall::scenario {

/// One treatment of one place, in the keeper's terms.
struct Action {
    records::Method method = records::Method::change_substrate;
    PlaceIndex place = 0;
    double time = 0;                 ///< days
    units::Strength strength;        ///< of an ivermectin spray
    double part = 1;                 ///< share of the enclosure's animals treated, where it is not said which
    double damp_until = 0;           ///< days; for spray_bedding
    std::vector<Host> animals = {};  ///< those treated; empty: `part` of them, or what has no animals
};

/// Appends what the actions do to mites (docs/model.md, table of actions); all at one moment, not before the
/// last event, each place by itself. It does not matter in how many actions it is told that somebody was
/// treated, nor in which order: of one method on one animal the strongest counts, once; parts of animals add
/// up to all of them. Methods without a figure for the mites they kill are taken to kill none.
void add_treatments(Scenario& scenario, std::span<const Action> together, const mites::FixedParameters& fixed,
                    Residents& residents);

/// What single animals of a place were given at this moment, each animal by itself, together with what was
/// already said to be given there and then.
void add_kills(Scenario& scenario, double time, KillOnAnimals kills);

/// One action by itself.
void add_action(Scenario& scenario, const Action& action, const mites::FixedParameters& fixed);

/// What a bedding spray, or wetting its paper again, leaves on the paper.
[[nodiscard]] Residue residue_of_spray(PlaceIndex place, units::Strength strength, double damp_until,
                                       const mites::FixedParameters& fixed);

/// A check of an enclosure by this method, found clean, with the evidence's chances to show mites. Append it
/// as an event.
[[nodiscard]] CleanCheck clean_check(PlaceIndex place, records::CheckMethod method);

/// Kill of an ivermectin spray between the two strengths the evidence names (`strength_without_caution`,
/// `home_strength`), straight in the logarithm of strength; below `published_strength_low` in proportion,
/// above the strength of home recipes as there.
[[nodiscard]] Amount at_strength(mites::ParameterMember published, mites::ParameterMember home,
                                 units::Strength strength, const mites::FixedParameters& fixed);

}  // namespace mitefall::scenario
