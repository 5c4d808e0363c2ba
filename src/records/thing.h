#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

#include "records/vocabulary.h"

// Things that stand in an enclosure or a room, each kind once, and what may be done with it against mites.
// What the rest of the program asks about a kind, it asks its row.
namespace mitefall::records {

enum class ThingKind {
    hide,
    cork,
    card_box,
    branch,
    foliage,
    bowl,
    bag,
    hook,
    rack,
    runner,
    heat_mat,
    cable,
    floor,
};

enum class ThingMethod {
    wash_hot,
    dry_heat,
    freeze,
    throw_away,     ///< in a closed bag
    spray_and_air,  ///< with what is meant for empty enclosures, if the safety check permits it
};
[[nodiscard]] constexpr auto vocabulary_of(ThingMethod) {
    using enum ThingMethod;
    return base::vocabulary("way to free a thing of mites", wash_hot, "wash-hot", dry_heat, "dry-heat",
                            freeze, "freeze", throw_away, "throw-away", spray_and_air, "spray-and-air");
}

/// Some of the methods, the usual one first.
struct ThingMethods {
    std::array<ThingMethod, all_of<ThingMethod>().size()> listed{};
    std::size_t count = 0;

    [[nodiscard]] constexpr const ThingMethod* begin() const { return listed.data(); }
    [[nodiscard]] constexpr const ThingMethod* end() const { return listed.data() + count; }
    [[nodiscard]] constexpr ThingMethod usual() const { return listed.front(); }
    [[nodiscard]] constexpr bool contains(ThingMethod method) const {
        return std::find(begin(), end(), method) != end();
    }
};
template <class... Methods>
[[nodiscard]] constexpr ThingMethods these(Methods... methods) {
    return {{methods...}, sizeof...(methods)};
}

struct ThingRow {
    ThingKind kind;
    std::string_view key;   ///< in files and answers
    std::string_view name;  ///< "hide of plastic or clay"
    ThingMethods may;
    bool harbours = true;  ///< mites rest and lay in its cracks and under it; else they only walk on it
    bool is_electric = false;
};

/// Wood soaks a spray up and keeps it, and washing does not reach its cracks. Nobody drinks from what was
/// sprayed. What hangs on the mains goes into no water, oven or freezer.
inline constexpr std::array thing_rows{
    ThingRow{.kind = ThingKind::hide,
             .key = "hide",
             .name = "hide",
             .may = these(ThingMethod::wash_hot, ThingMethod::freeze, ThingMethod::dry_heat,
                          ThingMethod::spray_and_air, ThingMethod::throw_away)},
    ThingRow{.kind = ThingKind::cork,
             .key = "cork",
             .name = "cork or wooden hide",
             .may = these(ThingMethod::dry_heat, ThingMethod::freeze, ThingMethod::throw_away)},
    ThingRow{.kind = ThingKind::card_box,
             .key = "card-box",
             .name = "card box",
             .may = these(ThingMethod::throw_away)},
    ThingRow{.kind = ThingKind::branch,
             .key = "branch",
             .name = "branch",
             .may = these(ThingMethod::dry_heat, ThingMethod::freeze, ThingMethod::throw_away)},
    ThingRow{.kind = ThingKind::foliage,
             .key = "foliage",
             .name = "plastic foliage",
             .may = these(ThingMethod::wash_hot, ThingMethod::freeze, ThingMethod::throw_away)},
    ThingRow{.kind = ThingKind::bowl,
             .key = "bowl",
             .name = "water bowl",
             .may = these(ThingMethod::wash_hot, ThingMethod::freeze, ThingMethod::dry_heat,
                          ThingMethod::throw_away),
             .harbours = false},
    ThingRow{.kind = ThingKind::bag,
             .key = "bag",
             .name = "cloth bag",
             .may = these(ThingMethod::wash_hot, ThingMethod::dry_heat, ThingMethod::freeze,
                          ThingMethod::throw_away)},
    ThingRow{.kind = ThingKind::hook,
             .key = "hook",
             .name = "hook or tongs",
             .may = these(ThingMethod::wash_hot, ThingMethod::dry_heat, ThingMethod::freeze,
                          ThingMethod::spray_and_air, ThingMethod::throw_away),
             .harbours = false},
    ThingRow{.kind = ThingKind::rack,
             .key = "rack",
             .name = "rack",
             .may = these(ThingMethod::wash_hot, ThingMethod::spray_and_air)},
    ThingRow{.kind = ThingKind::runner,
             .key = "runner",
             .name = "tub runner",
             .may = these(ThingMethod::wash_hot, ThingMethod::freeze, ThingMethod::spray_and_air,
                          ThingMethod::throw_away)},
    ThingRow{.kind = ThingKind::heat_mat,
             .key = "heat-mat",
             .name = "heat mat",
             .may = these(ThingMethod::spray_and_air, ThingMethod::throw_away),
             .is_electric = true},
    ThingRow{.kind = ThingKind::cable,
             .key = "cable",
             .name = "cable or sensor",
             .may = these(ThingMethod::spray_and_air, ThingMethod::throw_away),
             .harbours = false,
             .is_electric = true},
    ThingRow{.kind = ThingKind::floor,
             .key = "floor",
             .name = "floor around",
             .may = these(ThingMethod::wash_hot, ThingMethod::spray_and_air)},
};

static_assert(base::in_order(thing_rows, &ThingRow::kind));

[[nodiscard]] constexpr auto vocabulary_of(ThingKind) {
    return base::vocabulary("kind of thing", thing_rows, &ThingRow::kind, &ThingRow::key);
}

/// Throws ContractViolation for what is no kind of thing.
[[nodiscard]] constexpr const ThingRow& row_of(ThingKind kind) { return base::row_in(thing_rows, kind); }

}  // namespace mitefall::records
