#pragma once

#include <map>
#include <vector>

#include "evidence/tables.h"
#include "records/method.h"
#include "safety/verdict.h"

namespace mitefall::safety {

/// What a keeper must be told whenever this method is shown, whoever it is for.
[[nodiscard]] std::vector<Caution> cautions_for(records::Method method, const evidence::Tables& tables);

/// The same of every method.
using GeneralCautions = std::map<records::Method, std::vector<Caution>>;
[[nodiscard]] GeneralCautions general_cautions(const evidence::Tables& tables);

}  // namespace mitefall::safety
