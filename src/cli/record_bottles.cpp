#include "cli/record_options.h"

namespace mitefall::cli {

FactMaker stock_options(CLI::App& command) {
    using Stock = records::StockKept;
    return FactOptions<Stock>(command)
        .needs("NAME", &Stock::stock, "A new short name for the bottle, to be written on it: iver-1")
        .needs("STRENGTH", &Stock::strength, "As its label says, like \"10 mg/mL\" or \"1 % w/v\"")
        .flag("--plain", &Stock::plain,
              "You have read that it is a clear solution with ivermectin as its only drug: nothing else is "
              "mixed "
              "from")
        .may("--expires", &Stock::expires, "Last day of use on its label");
}

FactMaker stock_gone_options(CLI::App& command) {
    return FactOptions<records::StockGone>(command).needs("NAME", &records::StockGone::stock, "Which bottle");
}

}  // namespace mitefall::cli
