#pragma once

#include "formats/label_words.h"
#include "service/situation.h"
#include "worklist/bottle.h"

namespace mitefall::service {

/// What stands in the cupboard, as its labels say; `other` may be empty.
struct CupboardQuestion {
    formats::LabelWords first, other;
};

/// What each may be used on and, with a collection, what the adopted course takes of it; two side by side.
/// Errors name the option of the command line.
[[nodiscard]] base::Result<worklist::Cupboard> cupboard_of(const CupboardQuestion& question,
                                                           const Knowledge& knowledge,
                                                           const Situation* situation);

}  // namespace mitefall::service
