#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "evidence/taxa.h"
#include "records/facts.h"
#include "units/day.h"

// A journal told again without anybody's names, so that it can be given away: to look into an answer, or as a
// test (docs/cases.md).
namespace mitefall::service {

/// A name and what stands in its place.
struct Renamed {
    std::string was;
    std::string is;
};

struct Retelling {
    std::vector<records::Entry> journal;  ///< entry for entry the same, numbered from 1
    units::Day today;
    std::vector<Renamed> who;  ///< animals, enclosures, rooms and batches by their short names
};

/// Nothing a keeper wrote is in it. Short names and names are numbered words in the order in which the old
/// ones sort, so that answers come in the same order; texts are set phrases, where there was one. What a rule
/// hangs on stays: kinds of animal as far as they are known, by the names of the table, and drugs that are
/// known. All else that is kept are days, figures and choices. `first_day`: the day of the earliest entry;
/// all days are shifted with it, `today` too. An entry that could not be read stays one that cannot be.
[[nodiscard]] Retelling retell(std::span<const records::Entry> journal, units::Day today,
                               const evidence::Taxa& taxa, std::optional<units::Day> first_day = {});

/// The beginning of a plain case: a sentence to be replaced, the entries and the day. Error invalid_input
/// where a shifted day is none of the journal.
[[nodiscard]] base::Result<std::string> plain_case(const Retelling& retelling);

}  // namespace mitefall::service
