#pragma once

#include <optional>
#include <string>
#include <vector>

#include "records/facts/fact.h"
#include "records/names.h"
#include "records/vocabulary.h"
#include "units/amounts.h"

// Animals: how they came, where they are, how they are, with whom they were.
namespace mitefall::records {

/// An animal enters the collection. `taxon` is as the keeper writes it; empty if unknown.
struct AnimalArrived {
    AnimalId animal;
    std::string name;
    std::string taxon;
    std::string origin;  ///< "hatched here", "from a breeder", ...
    EnclosureId enclosure;
    bool quarantine = false;

    static constexpr Kind kind{"animal-arrived", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{
        Member{"animal", &AnimalArrived::animal},        Member{"name", &AnimalArrived::name},
        Member{or_null("taxon"), &AnimalArrived::taxon}, Member{or_null("origin"), &AnimalArrived::origin},
        Member{"enclosure", &AnimalArrived::enclosure},  Member{"quarantine", &AnimalArrived::quarantine}};
    static Applied check(const AnimalArrived& fact);
    static Applied check_amounts(const AnimalArrived& fact);
    static Applied apply(const AnimalArrived& fact, const Effect& effect);
};

struct AnimalMoved {
    AnimalId animal;
    EnclosureId to;
    bool knowing = false;             ///< it was warned of, and recorded all the same
    std::string knowing_reason = {};  ///< why all the same; may be empty

    static constexpr Kind kind{"animal-moved", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"animal", &AnimalMoved::animal},
                                        Member{"to", &AnimalMoved::to},
                                        later(or_left_out("knowing"), &AnimalMoved::knowing),
                                        later(or_left_out("knowing_reason"), &AnimalMoved::knowing_reason)};
    static Applied check(const AnimalMoved& fact);
    static Applied apply(const AnimalMoved& fact, const Effect& effect);
};

struct AnimalLeft {
    AnimalId animal;
    std::string reason;
    bool knowing = false;             ///< as of AnimalMoved
    std::string knowing_reason = {};  ///< as of AnimalMoved
    std::optional<LeftHow> how = {};  ///< none: told before it was asked for, or not said

    static constexpr Kind kind{"animal-left", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"animal", &AnimalLeft::animal},
                                        Member{"reason", &AnimalLeft::reason},
                                        later(or_left_out("knowing"), &AnimalLeft::knowing),
                                        later(or_left_out("knowing_reason"), &AnimalLeft::knowing_reason),
                                        later(or_null("how"), &AnimalLeft::how)};
    static Applied check(const AnimalLeft& fact);
    static Applied apply(const AnimalLeft& fact, const Effect& effect);
};

/// Animals handled one after another, in this order, without washing hands between.
struct Handled {
    std::vector<AnimalId> animals;
    bool shared_bag = false;  ///< they were also put into the same bag or tub

    static constexpr Kind kind{"handled", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"animals", &Handled::animals},
                                        Member{"shared_bag", &Handled::shared_bag}};
    static Applied check(const Handled& fact);
    static Applied apply(const Handled& fact, const Effect& effect);
};

struct Weighed {
    AnimalId animal;
    units::Mass mass;

    static constexpr Kind kind{"weighed", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"animal", &Weighed::animal}, Member{"mass_g", &Weighed::mass}};
    static Applied check(const Weighed& fact);
    static Applied check_amounts(const Weighed& fact) { return check(fact); }
    static Applied apply(const Weighed& fact, const Effect& effect);
};

struct ShedSeen {
    AnimalId animal;
    ShedState state = ShedState::shed;

    static constexpr Kind kind{"shed-seen", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"animal", &ShedSeen::animal},
                                        Member{"state", &ShedSeen::state}};
    static Applied apply(const ShedSeen& fact, const Effect& effect);
};

/// A condition begins, or ends when `present` is false. `agent` names what the animal reacted to.
struct ConditionNoted {
    AnimalId animal;
    Condition condition = Condition::sick;
    bool present = true;
    std::string agent;
    std::string note;

    static constexpr Kind kind{"condition-noted", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{
        Member{"animal", &ConditionNoted::animal}, Member{"condition", &ConditionNoted::condition},
        Member{"present", &ConditionNoted::present}, Member{or_null("agent"), &ConditionNoted::agent},
        Member{or_null("note"), &ConditionNoted::note}};
    static Applied check(const ConditionNoted& fact);
    static Applied apply(const ConditionNoted& fact, const Effect& effect);
};

/// Somebody was asked whether it is about to shed, gravid or newborn, and said that it is not, or does not
/// know.
struct StateAsked {
    AnimalId animal;
    std::vector<AskedState> no;
    std::vector<AskedState> unknown;  ///< bars what the state itself would, until it is told

    static constexpr Kind kind{"state-asked", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"animal", &StateAsked::animal}, Member{"no", &StateAsked::no},
                                        Member{"unknown", &StateAsked::unknown}};
    static Applied check(const StateAsked& fact);
    static Applied apply(const StateAsked& fact, const Effect& effect);
};

/// Somebody looked an animal over for the signs that mean a veterinarian. Neither list: none of them.
struct SignsNoted {
    AnimalId animal;
    std::vector<Sign> seen;
    std::vector<Sign> gone;  ///< seen before, and no longer there

    static constexpr Kind kind{"signs-noted", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"animal", &SignsNoted::animal},
                                        Member{"seen", &SignsNoted::seen}, Member{"gone", &SignsNoted::gone}};
    static Applied check(const SignsNoted& fact);
    static Applied apply(const SignsNoted& fact, const Effect& effect);
};

/// After a death somebody says that the company of the dead animal may be treated again, and why.
struct DeathAnswered {
    AnimalId animal;  ///< the dead one
    std::string why;

    static constexpr Kind kind{"death-answered", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"animal", &DeathAnswered::animal},
                                        Member{"why", &DeathAnswered::why}};
    static Applied check(const DeathAnswered& fact);
    static Applied apply(const DeathAnswered& fact, const Effect& effect);
};

/// The animal is no longer kept apart.
struct QuarantineEnded {
    AnimalId animal;
    std::string reason = {};  ///< why before the usual time; may be empty

    static constexpr Kind kind{"quarantine-ended", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"animal", &QuarantineEnded::animal},
                                        later(or_null("reason"), &QuarantineEnded::reason)};
    static Applied check(const QuarantineEnded& fact);
    static Applied apply(const QuarantineEnded& fact, const Effect& effect);
};

using AnimalFacts = KindList<AnimalArrived, AnimalMoved, AnimalLeft, Handled, Weighed, ShedSeen,
                             ConditionNoted, StateAsked, SignsNoted, DeathAnswered, QuarantineEnded>;

}  // namespace mitefall::records
