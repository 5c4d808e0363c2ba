#pragma once

#include <string>

#include "cli/recording.h"
#include "service/keeper.h"

namespace mitefall::cli {

/// What is proposed of an arrival that is not to be kept apart and may still be in its usual quarantine;
/// empty: nothing is.
[[nodiscard]] std::string quarantine_proposed(const Recording& recording, const service::DatedFact& dated);

/// The command that puts an arrival on record into quarantine after all.
[[nodiscard]] std::string quarantine_command(const Context& context, const service::DatedFact& dated,
                                             records::FactId entry);

}  // namespace mitefall::cli
