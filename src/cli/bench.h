#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "base/result.h"
#include "evidence/tables.h"
#include "service/keeper.h"

namespace mitefall::cli {

/// The stock and the measuring tools, as options. Without any: a 1 % w/v stock and the usual syringes.
struct BenchOptions {
    std::string stock = "10 mg/mL";
    std::string expires;
    std::vector<std::string> cups;      ///< "30 mL/1 mL": capacity / graduation
    std::vector<std::string> syringes;  ///< the same; in place of the usual ones
    std::string bottle;
    bool preserved = false;
    bool us_tablespoons = false;
    bool us_spoons = false;
    bool metric_spoons = false;
    bool no_syringes = false;
    std::vector<std::string> packages;  ///< "50 mL=18.90 EUR" or "50 mL"

    void add_to(CLI::App& command);
    [[nodiscard]] base::Result<worklist::Bench> read(const evidence::Tables& tables) const;
};

}  // namespace mitefall::cli
