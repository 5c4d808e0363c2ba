#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "records/check_value.h"
#include "records/collection.h"
#include "records/corrections.h"
#include "records/fold.h"

namespace mitefall::records {
namespace {

using base::Error;
using base::ErrorKind;
using base::Result;
using units::Day;
using units::format_day;

/// The journal as it would be, and which entries it already holds.
struct Trial {
    std::vector<Entry> entries;
    std::size_t accepted = 0;  ///< the first so many are on record already
    FactId last = 0;
    std::unordered_map<FactId, std::size_t> index;
    std::unordered_map<FactId, FactId> corrected;  ///< entry -> the one that corrects it

    explicit Trial(std::span<const Entry> journal) {
        for (const Entry& entry : journal) add(entry);
        accepted = entries.size();
    }

    void add(const Entry& entry) {
        index.emplace(entry.id, entries.size());
        if (entry.corrects && !entry.set_aside) corrected.emplace(*entry.corrects, entry.id);
        last = std::max(last, entry.id);
        entries.push_back(entry);
    }

    [[nodiscard]] bool is_new(const Entry* entry) const { return entry >= entries.data() + accepted; }
};

Result<void> check_day(Day day, Day today) {
    constexpr Day first_day{std::chrono::year(1900) / 1 / 1};
    if (day >= first_day && day <= today) return {};
    return base::fail(base::invalid(day > today ? "the day is still to come" : "the day is too long ago",
                                    format_day(day),
                                    fmt::format("1900-01-01 to {} (today)", format_day(today)),
                                    "record a fact on or after the day it happened"));
}

Result<void> check_number(const Trial& trial, FactId id) {
    if (id > trial.last) return {};
    return base::fail({ErrorKind::conflict,
                       "the number of the entry is taken",
                       fmt::format("entry {}", id),
                       fmt::format("the journal goes up to {}", trial.last),
                       "let the journal number it",
                       {}});
}

Error no_such_entry(FactId id) {
    return {ErrorKind::not_found,
            "there is no entry to correct",
            fmt::format("entry {}", id),
            "an entry of this journal",
            "look up the number of the entry in the history",
            {}};
}

Error corrected_before(FactId id, FactId by) {
    return {ErrorKind::conflict,
            "the entry was already corrected",
            fmt::format("entry {}", id),
            fmt::format("entry {} replaces it", by),
            fmt::format("correct entry {} instead", by),
            {}};
}

Result<void> check_correction(const Trial& trial, FactId id, bool withdraws) {
    const auto found = trial.index.find(id);
    if (found == trial.index.end()) return base::fail(no_such_entry(id));
    if (const auto by = trial.corrected.find(id); by != trial.corrected.end()) {
        return base::fail(corrected_before(id, by->second));
    }
    const Entry& meant = trial.entries[found->second];
    if (withdraws && !meant.set_aside && std::holds_alternative<Withdrawn>(meant.fact)) {
        return base::fail(base::invalid("a withdrawal cannot be withdrawn", fmt::format("entry {}", id),
                                        "entries that state something", "enter the fact again"));
    }
    return {};
}

Result<void> check_corrects(const Trial& trial, const Entry& entry) {
    const bool withdraws = std::holds_alternative<Withdrawn>(entry.fact);
    if (entry.corrects) return check_correction(trial, *entry.corrects, withdraws);
    if (!withdraws) return {};
    return base::fail(base::invalid("nothing is withdrawn", "", "a withdrawal names the entry it withdraws",
                                    "give the number of the entry"));
}

Result<void> check_alone(const Trial& trial, const Entry& entry, Day today) {
    if (auto good = check_day(entry.day, today); !good) return good;
    if (auto good = check_number(trial, entry.id); !good) return good;
    if (auto good = check_corrects(trial, entry); !good) return good;
    return check_value(entry.fact);
}

/// The error of an entry already on record that would no longer fit.
Error breaks_later(const Contradiction& fault) {
    const Entry& entry = *fault.entry;
    return {ErrorKind::conflict,
            fmt::format("entry {} of {} would no longer fit: {}", entry.id, format_day(entry.day),
                        fault.error.what),
            fault.error.value,
            fault.error.limit,
            fmt::format("correct or withdraw entry {} first", entry.id),
            fmt::format("entry {}", entry.id)};
}

Day last_day(const Trial& trial) {
    Day last{};
    for (const Entry& entry : trial.entries) last = std::max(last, entry.day);
    return last;
}

/// Says which of several new entries is at fault.
Error placed(Error error, std::size_t index, std::size_t count) {
    if (count > 1) error.where = fmt::format("fact {} of {}", index + 1, count);
    return error;
}

Result<void> check_together(const Trial& trial) {
    const auto folded = try_fold(pick_in_force(trial.entries), last_day(trial));
    if (folded) return {};
    const Contradiction& fault = folded.error();
    if (!trial.is_new(fault.entry)) return base::fail(breaks_later(fault));
    const auto index = static_cast<std::size_t>(fault.entry - trial.entries.data()) - trial.accepted;
    return base::fail(placed(fault.error, index, trial.entries.size() - trial.accepted));
}

}  // namespace

Result<void> check_facts(std::span<const Entry> journal, std::span<const Entry> added, Day today) {
    Trial trial(journal);
    for (std::size_t i = 0; i < added.size(); ++i) {
        Entry entry = added[i];
        if (entry.id == 0) entry.id = trial.last + 1;
        const auto good = check_alone(trial, entry, today);
        if (!good) return base::fail(placed(good.error(), i, added.size()));
        trial.add(entry);
    }
    return check_together(trial);
}

Result<void> check_fact(std::span<const Entry> journal, const Entry& entry, Day today) {
    return check_facts(journal, std::span(&entry, 1), today);
}

}  // namespace mitefall::records
