#pragma once

#include <string>

#include "records/facts/fact.h"
#include "records/names.h"
#include "records/vocabulary.h"
#include "units/amounts.h"

// Care that has nothing to do with mites and decides what may be done against them: meals, and eggs.
namespace mitefall::records {

/// A meal was offered, or came back. All but the outcome may be unknown.
struct MealNoted {
    AnimalId animal;
    MealOutcome outcome = MealOutcome::eaten;
    std::string prey;           ///< in the keeper's words: "adult mouse"
    int number = 0;             ///< of prey; zero: not known
    units::Mass mass;           ///< of all of it together; zero: not known
    bool treated_prey = false;  ///< it had been treated for mites of its own

    static constexpr Kind kind{"meal", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{
        Member{"animal", &MealNoted::animal},        Member{"outcome", &MealNoted::outcome},
        Member{or_null("prey"), &MealNoted::prey},   Member{or_null("number"), &MealNoted::number},
        Member{or_null("mass_g"), &MealNoted::mass}, Member{"treated_prey", &MealNoted::treated_prey}};
    static Applied check(const MealNoted& fact);
    static Applied check_amounts(const MealNoted& fact);
    static Applied apply(const MealNoted& fact, const Effect& effect);
};

/// Eggs are in the enclosure, be it an incubator, a box in one, or where they were laid; or no longer.
struct EggsNoted {
    EnclosureId enclosure;
    bool present = true;

    static constexpr Kind kind{"eggs", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"enclosure", &EggsNoted::enclosure},
                                        Member{"present", &EggsNoted::present}};
    static Applied apply(const EggsNoted& fact, const Effect& effect);
};

using CareFacts = KindList<MealNoted, EggsNoted>;

}  // namespace mitefall::records
