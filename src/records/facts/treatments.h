#pragma once

#include <optional>
#include <string>
#include <vector>

#include "records/facts/fact.h"
#include "records/method.h"
#include "records/names.h"
#include "units/amounts.h"

// Looking for mites, and what was done against them.
namespace mitefall::records {

struct Sighted {
    EnclosureId enclosure;
    SeenCount count = SeenCount::one;
    SeenWhere where = SeenWhere::on_animal;

    static constexpr Kind kind{"sighted", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"enclosure", &Sighted::enclosure},
                                        Member{"count", &Sighted::count}, Member{"where", &Sighted::where}};
    static Applied check(const Sighted& fact);
    static Applied apply(const Sighted& fact, const Effect& effect);
};

struct Checked {
    EnclosureId enclosure;
    CheckMethod method = CheckMethod::look_over;
    SeenCount count = SeenCount::none;
    std::optional<SeenWhere> where = {};  ///< none: where one looks by that method

    static constexpr Kind kind{"checked", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"enclosure", &Checked::enclosure},
                                        Member{"method", &Checked::method}, Member{"count", &Checked::count},
                                        later(or_null("where"), &Checked::where)};
    static Applied check(const Checked& fact);
    static Applied apply(const Checked& fact, const Effect& effect);
};

/// From this day a paper trap lies in each enclosure with animals, and is read every so many days.
struct TrapRoutine {
    int every_days = 30;  ///< zero: no longer

    static constexpr Kind kind{"trap-routine", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"every_days", &TrapRoutine::every_days}};
    static Applied check(const TrapRoutine& fact);
    static Applied check_amounts(const TrapRoutine& fact) { return check(fact); }
    static Applied apply(const TrapRoutine& fact, const Effect& effect);
};

/// A treatment as it was given. Which treatments may be proposed is another matter: see safety/.
struct Treated {
    EnclosureId enclosure;
    std::vector<AnimalId> animals;  ///< empty: the enclosure only
    Method method = Method::change_substrate;
    units::Strength strength;  ///< zero where the method has none

    static constexpr Kind kind{"treated", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{
        Member{"enclosure", &Treated::enclosure}, Member{"animals", &Treated::animals},
        Member{"method", &Treated::method}, Member{or_null("strength_mg_per_l"), &Treated::strength}};
    static Applied check(const Treated& fact);
    static Applied check_amounts(const Treated& fact);
    static Applied apply(const Treated& fact, const Effect& effect);
};

/// Floor, racks and walls of a room were treated; the enclosures in it were not.
struct RoomTreated {
    RoomId room;
    units::Strength strength;  ///< zero where it is not known

    static constexpr Kind kind{"room-treated", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"room", &RoomTreated::room},
                                        Member{or_null("strength_mg_per_l"), &RoomTreated::strength}};
    static Applied check(const RoomTreated& fact);
    static Applied check_amounts(const RoomTreated& fact) { return check(fact); }
    static Applied apply(const RoomTreated& fact, const Effect& effect);
};

/// What a veterinarian directed, in the keeper's words, and how far it goes.
struct VetDirection {
    AnimalId animal;
    Method method = Method::spray_animal;
    std::string who;
    std::string text;
    units::Strength strength = {};  ///< the strongest it names; zero: it names none
    int treatments = 0;             ///< how many it names; zero: it names no number

    static constexpr Kind kind{"vet-direction", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"animal", &VetDirection::animal},
                                        Member{"method", &VetDirection::method},
                                        Member{"who", &VetDirection::who},
                                        Member{"text", &VetDirection::text},
                                        later(or_null("up_to_mg_per_l"), &VetDirection::strength),
                                        later(or_null("treatments"), &VetDirection::treatments)};
    static Applied check(const VetDirection& fact);
    static Applied check_amounts(const VetDirection& fact);
    static Applied apply(const VetDirection& fact, const Effect& effect);
};

/// The keeper has read what a strength above the published range means for this animal and accepts it. No
/// animal: as it was recorded for a whole collection, which holds for places where no animal lives.
struct StrengthAcknowledged {
    units::Strength strength;
    AnimalId animal = {};

    static constexpr Kind kind{"strength-acknowledged", Damaged::says_nothing};
    static constexpr std::tuple members{Member{or_null("strength_mg_per_l"), &StrengthAcknowledged::strength},
                                        later(or_null("animal"), &StrengthAcknowledged::animal)};
    static Applied check(const StrengthAcknowledged& fact);
    static Applied check_amounts(const StrengthAcknowledged& fact);
    static Applied apply(const StrengthAcknowledged& fact, const Effect& effect);
};

/// The veterinarian of the collection, to be rung. Named again: another one, or another number.
struct VeterinarianNamed {
    std::string who;
    std::string telephone;  ///< as it is written down: digits and spaces, "+" in front (E.123)

    static constexpr Kind kind{"veterinarian-named", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"who", &VeterinarianNamed::who},
                                        Member{"telephone", &VeterinarianNamed::telephone}};
    static Applied check(const VeterinarianNamed& fact);
    static Applied apply(const VeterinarianNamed& fact, const Effect& effect);
};

using TreatmentFacts = KindList<Sighted, Checked, TrapRoutine, Treated, RoomTreated, VetDirection,
                                StrengthAcknowledged, VeterinarianNamed>;

}  // namespace mitefall::records
