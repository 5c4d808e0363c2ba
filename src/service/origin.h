#pragma once

#include "service/situation.h"

namespace mitefall::service {

/// How mites came in and where they are, as far as the records tell, and those records.
struct Origin {
    std::shared_ptr<const Situation> situation;
    std::shared_ptr<const Believed> believed;
};

/// Works without a sighting, and without any look: then it says what is usual. Errors: not_found without an
/// enclosure; conflict: cancelled.
[[nodiscard]] base::Result<Origin> origin_of(const Situation& situation, const Draws& draws,
                                             const Situation::Progress& progress = {});

}  // namespace mitefall::service
