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

    static constexpr std::string_view kind = "animal-arrived";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("name", fact.name);
        archive.field(or_null("taxon"), fact.taxon);
        archive.field(or_null("origin"), fact.origin);
        archive.field("enclosure", fact.enclosure);
        archive.field("quarantine", fact.quarantine);
    }
    [[nodiscard]] static Applied check(const AnimalArrived& fact);
    [[nodiscard]] static Applied check_amounts(const AnimalArrived& fact);
    [[nodiscard]] static Applied apply(const AnimalArrived& fact, const Effect& effect);
    friend bool operator==(const AnimalArrived&, const AnimalArrived&) = default;
};

struct AnimalMoved {
    AnimalId animal;
    EnclosureId to;
    bool knowing = false;             ///< it was warned of, and recorded all the same
    std::string knowing_reason = {};  ///< why all the same; may be empty

    static constexpr std::string_view kind = "animal-moved";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("to", fact.to);
        archive.later_field(or_left_out("knowing"), fact.knowing);
        archive.later_field(or_left_out("knowing_reason"), fact.knowing_reason);
    }
    [[nodiscard]] static Applied check(const AnimalMoved& fact);
    [[nodiscard]] static Applied apply(const AnimalMoved& fact, const Effect& effect);
    friend bool operator==(const AnimalMoved&, const AnimalMoved&) = default;
};

struct AnimalLeft {
    AnimalId animal;
    std::string reason;
    bool knowing = false;             ///< as of AnimalMoved
    std::string knowing_reason = {};  ///< as of AnimalMoved
    std::optional<LeftHow> how = {};  ///< none: told before it was asked for, or not said

    static constexpr std::string_view kind = "animal-left";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("reason", fact.reason);
        archive.later_field(or_left_out("knowing"), fact.knowing);
        archive.later_field(or_left_out("knowing_reason"), fact.knowing_reason);
        archive.later_field(or_null("how"), fact.how);
    }
    [[nodiscard]] static Applied check(const AnimalLeft& fact);
    [[nodiscard]] static Applied apply(const AnimalLeft& fact, const Effect& effect);
    friend bool operator==(const AnimalLeft&, const AnimalLeft&) = default;
};

/// Animals handled one after another, in this order, without washing hands between.
struct Handled {
    std::vector<AnimalId> animals;
    bool shared_bag = false;  ///< they were also put into the same bag or tub

    static constexpr std::string_view kind = "handled";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animals", fact.animals);
        archive.field("shared_bag", fact.shared_bag);
    }
    [[nodiscard]] static Applied check(const Handled& fact);
    [[nodiscard]] static Applied apply(const Handled& fact, const Effect& effect);
    friend bool operator==(const Handled&, const Handled&) = default;
};

struct Weighed {
    AnimalId animal;
    units::Mass mass;

    static constexpr std::string_view kind = "weighed";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("mass_g", fact.mass);
    }
    [[nodiscard]] static Applied check(const Weighed& fact);
    [[nodiscard]] static Applied check_amounts(const Weighed& fact) { return check(fact); }
    [[nodiscard]] static Applied apply(const Weighed& fact, const Effect& effect);
    friend bool operator==(const Weighed&, const Weighed&) = default;
};

struct ShedSeen {
    AnimalId animal;
    ShedState state = ShedState::shed;

    static constexpr std::string_view kind = "shed-seen";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("state", fact.state);
    }
    [[nodiscard]] static Applied apply(const ShedSeen& fact, const Effect& effect);
    friend bool operator==(const ShedSeen&, const ShedSeen&) = default;
};

/// A condition begins, or ends when `present` is false. `agent` names what the animal reacted to.
struct ConditionNoted {
    AnimalId animal;
    Condition condition = Condition::sick;
    bool present = true;
    std::string agent;
    std::string note;

    static constexpr std::string_view kind = "condition-noted";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("condition", fact.condition);
        archive.field("present", fact.present);
        archive.field(or_null("agent"), fact.agent);
        archive.field(or_null("note"), fact.note);
    }
    [[nodiscard]] static Applied check(const ConditionNoted& fact);
    [[nodiscard]] static Applied apply(const ConditionNoted& fact, const Effect& effect);
    friend bool operator==(const ConditionNoted&, const ConditionNoted&) = default;
};

/// Somebody was asked whether it is about to shed, gravid or newborn, and said that it is not, or does not
/// know.
struct StateAsked {
    AnimalId animal;
    std::vector<AskedState> no;
    std::vector<AskedState> unknown;  ///< bars what the state itself would, until it is told

    static constexpr std::string_view kind = "state-asked";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("no", fact.no);
        archive.field("unknown", fact.unknown);
    }
    [[nodiscard]] static Applied check(const StateAsked& fact);
    [[nodiscard]] static Applied apply(const StateAsked& fact, const Effect& effect);
    friend bool operator==(const StateAsked&, const StateAsked&) = default;
};

/// Somebody looked an animal over for the signs that mean a veterinarian. Neither list: none of them.
struct SignsNoted {
    AnimalId animal;
    std::vector<Sign> seen;
    std::vector<Sign> gone;  ///< seen before, and no longer there

    static constexpr std::string_view kind = "signs-noted";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("seen", fact.seen);
        archive.field("gone", fact.gone);
    }
    [[nodiscard]] static Applied check(const SignsNoted& fact);
    [[nodiscard]] static Applied apply(const SignsNoted& fact, const Effect& effect);
    friend bool operator==(const SignsNoted&, const SignsNoted&) = default;
};

/// After a death somebody says that the company of the dead animal may be treated again, and why.
struct DeathAnswered {
    AnimalId animal;  ///< the dead one
    std::string why;

    static constexpr std::string_view kind = "death-answered";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.field("why", fact.why);
    }
    [[nodiscard]] static Applied check(const DeathAnswered& fact);
    [[nodiscard]] static Applied apply(const DeathAnswered& fact, const Effect& effect);
    friend bool operator==(const DeathAnswered&, const DeathAnswered&) = default;
};

/// The animal is no longer kept apart.
struct QuarantineEnded {
    AnimalId animal;
    std::string reason = {};  ///< why before the usual time; may be empty

    static constexpr std::string_view kind = "quarantine-ended";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("animal", fact.animal);
        archive.later_field(or_null("reason"), fact.reason);
    }
    [[nodiscard]] static Applied check(const QuarantineEnded& fact);
    [[nodiscard]] static Applied apply(const QuarantineEnded& fact, const Effect& effect);
    friend bool operator==(const QuarantineEnded&, const QuarantineEnded&) = default;
};

using AnimalFacts = KindList<AnimalArrived, AnimalMoved, AnimalLeft, Handled, Weighed, ShedSeen,
                             ConditionNoted, StateAsked, SignsNoted, DeathAnswered, QuarantineEnded>;

}  // namespace mitefall::records
