#pragma once

#include <optional>

#include "records/facts/fact.h"
#include "records/names.h"
#include "records/thing.h"
#include "units/amounts.h"

// Things of an enclosure or a room, and what was done with them.
namespace mitefall::records {

/// From now on it is kept there. Told again of the same thing in the same place it says how it is treated.
struct ThingKept {
    ThingId thing;
    ThingKind what = ThingKind::hide;
    EnclosureId enclosure;  ///< of this or of `room`, one
    RoomId room;
    std::optional<ThingMethod> by = {};  ///< how it is freed of mites; none: as is usual for its kind

    static constexpr std::string_view kind = "thing-kept";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("thing", fact.thing);
        archive.field("what", fact.what);
        archive.field(or_null("enclosure"), fact.enclosure);
        archive.field(or_null("room"), fact.room);
        archive.later_field(or_null("by"), fact.by);
    }
    [[nodiscard]] static Applied check(const ThingKept& fact);
    [[nodiscard]] static Applied apply(const ThingKept& fact, const Effect& effect);
    friend bool operator==(const ThingKept&, const ThingKept&) = default;
};

/// It is no longer kept: broken, given away. What was thrown away because of mites is `ThingTreated`.
struct ThingGone {
    ThingId thing;

    static constexpr std::string_view kind = "thing-gone";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("thing", fact.thing);
    }
    [[nodiscard]] static Applied apply(const ThingGone& fact, const Effect& effect);
    friend bool operator==(const ThingGone&, const ThingGone&) = default;
};

/// It was taken out of where it is kept for this, on the day of the entry.
struct ThingTreated {
    ThingId thing;
    ThingMethod method = ThingMethod::wash_hot;
    units::Strength strength = {};  ///< of what it was sprayed with; zero where it is not known

    static constexpr std::string_view kind = "thing-treated";
    static constexpr bool bears_on_treatment = false;
    template <class Fact, class Archive>
    static void fields(Fact& fact, Archive& archive) {
        archive.field("thing", fact.thing);
        archive.field("method", fact.method);
        archive.later_field(or_null("strength_mg_per_l"), fact.strength);
    }
    [[nodiscard]] static Applied check(const ThingTreated& fact);
    [[nodiscard]] static Applied check_amounts(const ThingTreated& fact);
    [[nodiscard]] static Applied apply(const ThingTreated& fact, const Effect& effect);
    friend bool operator==(const ThingTreated&, const ThingTreated&) = default;
};

using ThingFacts = KindList<ThingKept, ThingGone, ThingTreated>;

}  // namespace mitefall::records
