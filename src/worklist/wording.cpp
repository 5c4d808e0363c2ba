#include "worklist/wording.h"

#include <fmt/format.h>

namespace mitefall::worklist {

std::string sentence(records::Method method, const std::string& who, const std::string& where) {
    const records::MethodRow& row = records::row_of(method);
    if (row.task.empty()) return fmt::format("Give {} what the veterinarian directed ({})", who, row.name);
    return fmt::format(fmt::runtime(row.task), fmt::arg("who", who), fmt::arg("where", where));
}

}  // namespace mitefall::worklist
