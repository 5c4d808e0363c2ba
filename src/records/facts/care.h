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

    static constexpr std::string_view kind = "meal";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("outcome", fact.outcome);
        archive.field(or_null("prey"), fact.prey);
        archive.field(or_null("number"), fact.number);
        archive.field(or_null("mass_g"), fact.mass);
        archive.field("treated_prey", fact.treated_prey);
    }
    [[nodiscard]] static Applied check(const MealNoted& fact);
    [[nodiscard]] static Applied check_amounts(const MealNoted& fact);
    [[nodiscard]] static Applied apply(const MealNoted& fact, const Effect& effect);
    friend bool operator==(const MealNoted&, const MealNoted&) = default;
};

/// Eggs are in the enclosure, be it an incubator, a box in one, or where they were laid; or no longer.
struct EggsNoted {
    EnclosureId enclosure;
    bool present = true;

    static constexpr std::string_view kind = "eggs";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("enclosure", fact.enclosure);
        archive.field("present", fact.present);
    }
    [[nodiscard]] static Applied apply(const EggsNoted& fact, const Effect& effect);
    friend bool operator==(const EggsNoted&, const EggsNoted&) = default;
};

using CareFacts = KindList<MealNoted, EggsNoted>;

}  // namespace mitefall::records
