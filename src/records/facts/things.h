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

    static constexpr Kind kind{"thing-kept", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"thing", &ThingKept::thing}, Member{"what", &ThingKept::what},
                                        Member{or_null("enclosure"), &ThingKept::enclosure},
                                        Member{or_null("room"), &ThingKept::room},
                                        later(or_null("by"), &ThingKept::by)};
    static Applied check(const ThingKept& fact);
    static Applied apply(const ThingKept& fact, const Effect& effect);
};

/// It is no longer kept: broken, given away. What was thrown away because of mites is `ThingTreated`.
struct ThingGone {
    ThingId thing;

    static constexpr Kind kind{"thing-gone", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"thing", &ThingGone::thing}};
    static Applied apply(const ThingGone& fact, const Effect& effect);
};

/// It was taken out of where it is kept for this, on the day of the entry.
struct ThingTreated {
    ThingId thing;
    ThingMethod method = ThingMethod::wash_hot;
    units::Strength strength = {};  ///< of what it was sprayed with; zero where it is not known

    static constexpr Kind kind{"thing-treated", Damaged::says_nothing};
    static constexpr std::tuple members{Member{"thing", &ThingTreated::thing},
                                        Member{"method", &ThingTreated::method},
                                        later(or_null("strength_mg_per_l"), &ThingTreated::strength)};
    static Applied check(const ThingTreated& fact);
    static Applied check_amounts(const ThingTreated& fact);
    static Applied apply(const ThingTreated& fact, const Effect& effect);
};

using ThingFacts = KindList<ThingKept, ThingGone, ThingTreated>;

}  // namespace mitefall::records
