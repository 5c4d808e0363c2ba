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

    static constexpr std::tuple members{Member{"day_c", &Climate::day}, Member{"night_c", &Climate::night},
                                        Member{"humidity_percent", &Climate::humidity}};
};

struct RoomAdded {
    RoomId room;
    std::string name;
    Climate climate;
    std::vector<RoomId> adjoining;
    units::Area floor;

    static constexpr Kind kind{"room-added", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"room", &RoomAdded::room}, Member{"name", &RoomAdded::name},
                                        Part{&RoomAdded::climate}, Member{"adjoining", &RoomAdded::adjoining},
                                        Member{"floor_cm2", &RoomAdded::floor}};
    static Applied check(const RoomAdded& fact);
    static Applied check_amounts(const RoomAdded& fact);
    static Applied apply(const RoomAdded& fact, const Effect& effect);
};

struct EnclosureAdded {
    EnclosureId enclosure;
    std::string name;
    RoomId room;
    Material material = Material::sealed;
    Substrate substrate = Substrate::paper;
    Climate climate;
    units::Area floor;  ///< inner floor area

    static constexpr Kind kind{"enclosure-added", Damaged::says_nothing};
    static constexpr std::tuple members{
        Member{"enclosure", &EnclosureAdded::enclosure}, Member{"name", &EnclosureAdded::name},
        Member{"room", &EnclosureAdded::room},           Member{"material", &EnclosureAdded::material},
        Member{"substrate", &EnclosureAdded::substrate}, Part{&EnclosureAdded::climate},
        Member{"floor_cm2", &EnclosureAdded::floor}};
    static Applied check(const EnclosureAdded& fact);
    static Applied check_amounts(const EnclosureAdded& fact);
    static Applied apply(const EnclosureAdded& fact, const Effect& effect);
};

/// Other life that shares the air: dogs, cats, fish, amphibians, invertebrates. Empty room: the whole house.
struct BystanderNoted {
    std::string name;
    std::string taxon;
    RoomId room;

    static constexpr Kind kind{"bystander-noted", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"name", &BystanderNoted::name},
                                        Member{or_null("taxon"), &BystanderNoted::taxon},
                                        Member{or_null("room"), &BystanderNoted::room}};
    static Applied check(const BystanderNoted& fact);
    static Applied apply(const BystanderNoted& fact, const Effect& effect);
};

/// A tool, hide or water bowl used in one enclosure and then in another.
struct ItemShared {
    std::string item;
    EnclosureId from;
    EnclosureId to;

    static constexpr Kind kind{"item-shared", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"item", &ItemShared::item}, Member{"from", &ItemShared::from},
                                        Member{"to", &ItemShared::to}};
    static Applied check(const ItemShared& fact);
    static Applied apply(const ItemShared& fact, const Effect& effect);
};

/// Contact with animals elsewhere, and where in the collection it may have reached. Neither a room nor an
/// enclosure: nobody knows where, so any room.
struct OutsideContact {
    OutsideKind what = OutsideKind::show;
    std::vector<RoomId> rooms;
    std::vector<EnclosureId> enclosures;
    std::string note;

    static constexpr Kind kind{"outside-contact", Damaged::says_nothing};
    static constexpr std::tuple members{
        Member{"what", &OutsideContact::what}, Member{"rooms", &OutsideContact::rooms},
        Member{"enclosures", &OutsideContact::enclosures}, Member{or_null("note"), &OutsideContact::note}};
    static Applied check(const OutsideContact& fact);
    static Applied apply(const OutsideContact& fact, const Effect& effect);
};

struct SubstrateChanged {
    EnclosureId enclosure;
    Substrate to = Substrate::paper;

    static constexpr Kind kind{"substrate-changed", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"enclosure", &SubstrateChanged::enclosure},
                                        Member{"to", &SubstrateChanged::to}};
    static Applied apply(const SubstrateChanged& fact, const Effect& effect);
};

struct WaterMoved {
    EnclosureId enclosure;
    bool out = true;  ///< false: put back

    static constexpr Kind kind{"water-moved", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"enclosure", &WaterMoved::enclosure},
                                        Member{"out", &WaterMoved::out}};
    static Applied apply(const WaterMoved& fact, const Effect& effect);
};

/// The paper was wetted again with the spray it was sprayed with.
struct PaperWetted {
    EnclosureId enclosure;

    static constexpr Kind kind{"paper-wetted", Damaged::speaks_against_treatment};
    static constexpr std::tuple members{Member{"enclosure", &PaperWetted::enclosure}};
    static Applied apply(const PaperWetted& fact, const Effect& effect);
};

using PlaceFacts = KindList<RoomAdded, EnclosureAdded, BystanderNoted, ItemShared, SubstrateChanged,
                            WaterMoved, PaperWetted, OutsideContact>;

}  // namespace mitefall::records
