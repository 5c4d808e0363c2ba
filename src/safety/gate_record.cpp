#include <fmt/format.h>

#include "safety/gates.h"

namespace mitefall::safety {

void check_record(const records::Collection& collection, Findings& findings) {
    for (const records::FactId entry : collection.unsettled) {
        findings.reasons.push_back(missing_fact(
            fmt::format("entry {} is damaged and set aside: it may say why this must not be done", entry),
            our_assumption(),
            fmt::format("put entry {0} right (record ... --corrects {0}) or withdraw it", entry)));
    }
}

}  // namespace mitefall::safety
