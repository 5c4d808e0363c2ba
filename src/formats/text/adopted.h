#pragma once

#include <string>

#include "records/collection.h"

namespace mitefall::formats {

[[nodiscard]] std::string adopted_text(const records::DatedValue<records::PlanAdopted>& plan,
                                       const records::Collection& collection);

}  // namespace mitefall::formats
