#pragma once

#include <string>
#include <vector>

#include "evidence/tables.h"
#include "statement/statement.h"

// What is told beside the figures: other diseases, and how mites are kept out.
namespace mitefall::clearance {

namespace after {

#define STATEMENTS "clearance/after.def"
#include "statement/kinds.def"

}  // namespace after

/// A line with where it comes from.
struct Told {
    statement::Statement what;
    evidence::Tag tag = evidence::Tag::memory;
    std::string source{};   ///< empty for common practice and assumptions
    bool by_mites = false;  ///< of a disease: mites may carry it
};

/// What quarantine waits for beside mites, those that mites may carry first. From memory, to be verified.
[[nodiscard]] std::vector<Told> other_diseases(const evidence::Tables& tables);

/// The habits that keep mites out.
[[nodiscard]] std::vector<Told> habits(const evidence::Tables& tables);

}  // namespace mitefall::clearance
