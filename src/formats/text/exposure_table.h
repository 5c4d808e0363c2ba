#pragma once

#include <string>

#include "exposure/tracing.h"
#include "records/collection.h"

namespace mitefall::formats {

/// The enclosures with a chance, each with the path that explains it.
[[nodiscard]] std::string exposure_table(const exposure::Tracing& tracing,
                                         const records::Collection& collection);

}  // namespace mitefall::formats
