#include "cli/bench.h"

namespace mitefall::cli {

void BenchOptions::add_to(CLI::App& command) {
    command
        .add_option("--stock", words.stock,
                    "Strength on the label of the ivermectin, like \"10 mg/mL\" or \"1 % w/v\"")
        ->capture_default_str();
    command.add_option("--stock-is", words.stock_is,
                       "What is in the bottle: plain (ivermectin alone, a clear solution), pour-on, paste or "
                       "combination (with another drug)");
    command.add_option("--expires", words.expires, "Last day of use of the stock");
    command.add_option("--cup", words.cups, "A measuring cup: largest amount/marks, like \"30 mL/1 mL\"");
    command.add_option("--syringe", words.syringes,
                       "A syringe in place of the usual ones: largest amount/marks, like \"10 mL/0.2 mL\"");
    command.add_flag("--us-tablespoons", words.us_tablespoons, "US tablespoons are at hand");
    command.add_flag("--preserved", words.preserved, "The mix has a preservative");
    command.add_option("--bottle", words.bottle, "Most one batch may hold, like \"1 L\" or \"32 US fl oz\"");
    command.add_flag("--us-spoons", words.us_spoons, "US teaspoons are at hand");
    command.add_flag("--metric-spoons", words.metric_spoons, "5 mL teaspoons are at hand");
    command.add_flag("--no-syringes", words.no_syringes, "No syringes (usual: 1, 3, 5, 10 and 20 mL)");
    command.add_option("--package", words.packages,
                       "A size the stock is sold in, with its price in your currency: \"50 mL=18.90 EUR\"");
}

}  // namespace mitefall::cli
