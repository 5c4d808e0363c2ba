#pragma once

#include <string>
#include <vector>

#include "records/facts/fact.h"
#include "records/names.h"
#include "records/vocabulary.h"
#include "units/amounts.h"
#include "units/climate.h"

// Rooms, enclosures, what stands in them, who else breathes their air, and what came to them from outside.
namespace mitefall::records {

struct Climate {
    units::Temperature day;
    units::Temperature night;
    units::Humidity humidity;

    template <class Part, class Archive>
    static void fields(Part& climate, Archive& archive) {
        archive.field("day_c", climate.day);
        archive.field("night_c", climate.night);
        archive.field("humidity_percent", climate.humidity);
    }
    friend bool operator==(const Climate&, const Climate&) = default;
};

struct RoomAdded {
    RoomId room;
    std::string name;
    Climate climate;
    std::vector<RoomId> adjoining;
    units::Area floor;

    static constexpr std::string_view kind = "room-added";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("room", fact.room);
        archive.field("name", fact.name);
        Climate::fields(fact.climate, archive);
        archive.field("adjoining", fact.adjoining);
        archive.field("floor_cm2", fact.floor);
    }
    [[nodiscard]] static Applied check(const RoomAdded& fact);
    [[nodiscard]] static Applied check_amounts(const RoomAdded& fact);
    [[nodiscard]] static Applied apply(const RoomAdded& fact, const Effect& effect);
    friend bool operator==(const RoomAdded&, const RoomAdded&) = default;
};

struct EnclosureAdded {
    EnclosureId enclosure;
    std::string name;
    RoomId room;
    Material material = Material::sealed;
    Substrate substrate = Substrate::paper;
    Climate climate;
    units::Area floor;  ///< inner floor area

    static constexpr std::string_view kind = "enclosure-added";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("enclosure", fact.enclosure);
        archive.field("name", fact.name);
        archive.field("room", fact.room);
        archive.field("material", fact.material);
        archive.field("substrate", fact.substrate);
        Climate::fields(fact.climate, archive);
        archive.field("floor_cm2", fact.floor);
    }
    [[nodiscard]] static Applied check(const EnclosureAdded& fact);
    [[nodiscard]] static Applied check_amounts(const EnclosureAdded& fact);
    [[nodiscard]] static Applied apply(const EnclosureAdded& fact, const Effect& effect);
    friend bool operator==(const EnclosureAdded&, const EnclosureAdded&) = default;
};

/// Other life that shares the air: dogs, cats, fish, amphibians, invertebrates. Empty room: the whole house.
struct BystanderNoted {
    std::string name;
    std::string taxon;
    RoomId room;

    static constexpr std::string_view kind = "bystander-noted";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("name", fact.name);
        archive.field(or_null("taxon"), fact.taxon);
        archive.field(or_null("room"), fact.room);
    }
    [[nodiscard]] static Applied check(const BystanderNoted& fact);
    [[nodiscard]] static Applied apply(const BystanderNoted& fact, const Effect& effect);
    friend bool operator==(const BystanderNoted&, const BystanderNoted&) = default;
};

/// Other life moved out of the air it shared, for good or for a while, or is back. Who is meant is told by
/// name or kind; an empty member tells nobody apart.
struct BystanderMoved {
    std::string name;
    std::string taxon;
    RoomId room;
    bool out = true;  ///< false: back

    static constexpr std::string_view kind = "bystander-moved";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("name", fact.name);
        archive.field(or_null("taxon"), fact.taxon);
        archive.field(or_null("room"), fact.room);
        archive.field("out", fact.out);
    }
    [[nodiscard]] static Applied check(const BystanderMoved& fact);
    [[nodiscard]] static Applied apply(const BystanderMoved& fact, const Effect& effect);
    friend bool operator==(const BystanderMoved&, const BystanderMoved&) = default;
};

/// A tool, hide or water bowl used in one enclosure and then in another.
struct ItemShared {
    std::string item;
    EnclosureId from;
    EnclosureId to;

    static constexpr std::string_view kind = "item-shared";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("item", fact.item);
        archive.field("from", fact.from);
        archive.field("to", fact.to);
    }
    [[nodiscard]] static Applied check(const ItemShared& fact);
    [[nodiscard]] static Applied apply(const ItemShared& fact, const Effect& effect);
    friend bool operator==(const ItemShared&, const ItemShared&) = default;
};

/// Contact with animals elsewhere, and where in the collection it may have reached. Neither a room nor an
/// enclosure: nobody knows where, so any room.
struct OutsideContact {
    OutsideKind what = OutsideKind::show;
    std::vector<RoomId> rooms;
    std::vector<EnclosureId> enclosures;
    std::string note;

    static constexpr std::string_view kind = "outside-contact";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("what", fact.what);
        archive.field("rooms", fact.rooms);
        archive.field("enclosures", fact.enclosures);
        archive.field(or_null("note"), fact.note);
    }
    [[nodiscard]] static Applied check(const OutsideContact& fact);
    [[nodiscard]] static Applied apply(const OutsideContact& fact, const Effect& effect);
    friend bool operator==(const OutsideContact&, const OutsideContact&) = default;
};

struct SubstrateChanged {
    EnclosureId enclosure;
    Substrate to = Substrate::paper;

    static constexpr std::string_view kind = "substrate-changed";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("enclosure", fact.enclosure);
        archive.field("to", fact.to);
    }
    [[nodiscard]] static Applied apply(const SubstrateChanged& fact, const Effect& effect);
    friend bool operator==(const SubstrateChanged&, const SubstrateChanged&) = default;
};

struct WaterMoved {
    EnclosureId enclosure;
    bool out = true;  ///< false: put back

    static constexpr std::string_view kind = "water-moved";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("enclosure", fact.enclosure);
        archive.field("out", fact.out);
    }
    [[nodiscard]] static Applied apply(const WaterMoved& fact, const Effect& effect);
    friend bool operator==(const WaterMoved&, const WaterMoved&) = default;
};

/// The paper was wetted again with the spray it was sprayed with.
struct PaperWetted {
    EnclosureId enclosure;

    static constexpr std::string_view kind = "paper-wetted";
    static constexpr bool bears_on_treatment = true;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("enclosure", fact.enclosure);
    }
    [[nodiscard]] static Applied apply(const PaperWetted& fact, const Effect& effect);
    friend bool operator==(const PaperWetted&, const PaperWetted&) = default;
};

using PlaceFacts = KindList<RoomAdded, EnclosureAdded, BystanderNoted, BystanderMoved, ItemShared,
                            SubstrateChanged, WaterMoved, PaperWetted, OutsideContact>;

}  // namespace mitefall::records
