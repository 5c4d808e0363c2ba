#include "safety/gates.h"

namespace mitefall::safety {

void check_record(const Case& with, Findings& findings) {
    for (const records::FactId entry : with.collection.unsettled) {
        const auto number = static_cast<double>(entry);
        refuse(findings, with.tables, says::entry_set_aside(number), says::put_entry_right(number));
    }
}

}  // namespace mitefall::safety
