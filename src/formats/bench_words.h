#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "evidence/tables.h"
#include "formats/words.h"
#include "worklist/shopping.h"

namespace mitefall::formats {

/// The stock and the measuring tools as a keeper writes them. Without any: a 1 % w/v stock and the usual
/// syringes.
struct BenchWords {
    std::string from;      ///< a bottle on record, by its name
    std::string stock;     ///< strength on its label; empty: 10 mg/mL
    std::string stock_is;  ///< "plain", "pour-on", "paste", "combination"; empty: not told
    std::string expires;
    std::vector<std::string> cups;      ///< "30 mL/1 mL": capacity / graduation
    std::vector<std::string> syringes;  ///< the same; in place of the usual ones
    std::string bottle;
    bool preserved = false;
    bool us_tablespoons = false;      ///< as "1 US tbsp" in `spoons`
    bool us_spoons = false;           ///< as "1 US tsp"
    bool metric_spoons = false;       ///< as "5 mL"
    std::vector<std::string> spoons;  ///< "1/2 US tsp": those of mixing/spoons.h
    bool no_syringes = false;
    std::vector<std::string> packages;  ///< "50 mL=18.90 EUR" or "50 mL"
};

/// "10 mg/mL", as labels have it: stands wherever stock is measured.
[[nodiscard]] std::string show_on_label(units::Strength stock);

/// Errors name the option of the command line; refused for a stock that is not a plain solution.
[[nodiscard]] base::Result<worklist::Bench> read_bench(const BenchWords& words,
                                                       const evidence::Tables& tables);

}  // namespace mitefall::formats
