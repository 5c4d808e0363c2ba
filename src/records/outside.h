#pragma once

#include "evidence/key.h"
#include "records/vocabulary.h"

namespace mitefall::records {

/// The row of the evidence that says how likely one such contact is to bring mites.
[[nodiscard]] constexpr evidence::ShareKey outside_row(OutsideKind kind) {
    switch (kind) {
        case OutsideKind::show: return "outside_show";
        case OutsideKind::shop: return "outside_shop";
        case OutsideKind::animal_held: return "outside_animal_held";
        case OutsideKind::visitor: return "outside_visitor";
        case OutsideKind::borrowed_thing: return "outside_borrowed_thing";
        case OutsideKind::second_hand_wood: return "outside_second_hand_wood";
        case OutsideKind::live_plants: return "outside_live_plants";
    }
    return {};
}

}  // namespace mitefall::records
