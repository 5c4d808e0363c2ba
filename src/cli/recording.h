#pragma once

#include <memory>
#include <string>

#include "base/result.h"
#include "cli/context.h"
#include "records/facts.h"

namespace mitefall::cli {

/// What every "record" command has: the day, the entry it corrects, and what is said to what it asks.
struct Recording {
    Context& context;
    std::string day;
    records::FactId corrects = 0;
    bool knowing = false;
    std::string knowing_because;
    bool is_quarantine_said = false;  ///< of an arrival: yes or no
};

/// Writes the fact as one entry, or tells what it asks first.
[[nodiscard]] base::Result<void> put_on_record(const Recording& recording,
                                               const base::Result<records::Fact>& fact);

}  // namespace mitefall::cli
