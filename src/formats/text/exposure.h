#pragma once

#include <string>

#include "exposure/tracing.h"
#include "records/collection.h"

namespace mitefall::formats {

/// Exposed enclosures with the path that explains each; those with no contact on record are counted.
[[nodiscard]] std::string exposure_text(const exposure::Tracing& tracing,
                                        const records::Collection& collection);

}  // namespace mitefall::formats
