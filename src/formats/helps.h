#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/band.h"
#include "statement/statement.h"

// What single changes would do to the chance of clear.
namespace mitefall::formats {

struct HelpView {
    statement::Statement what;    ///< service/changes.def
    std::string whose;            ///< "keeper" or "veterinarian"
    statement::Statement course;  ///< the best that is permitted then (plan/told.def)
    base::Band clear;
    bool meets_target = false;
    double gain = 0;                     ///< of the mean chance
    std::vector<std::string> sources{};  ///< in full, of published trials of what is done
};

struct HelpsView {
    base::Band clear;  ///< as things are
    bool meets_target = false;
    double target = 0;
    std::vector<HelpView> changes;  ///< best first
    std::optional<HelpView> all_own{};
};

}  // namespace mitefall::formats
