#pragma once

#include <string>

#include "records/collection.h"
#include "units/text.h"

namespace mitefall::formats {

[[nodiscard]] std::string collection_text(const records::Collection& collection, units::Display display);

}  // namespace mitefall::formats
