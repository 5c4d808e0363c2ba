#include "records/set_aside.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "records/check_value.h"
#include "records/corrections.h"
#include "records/fold.h"

namespace mitefall::records {
namespace {

using base::Error;
using base::ErrorKind;

/// Beyond it JavaScript no longer counts (ECMA-262, Number.MAX_SAFE_INTEGER).
constexpr FactId last_number = (1LL << 53) - 1;
constexpr units::Day first_day{std::chrono::year(1900) / 1 / 1};

/// Each time something is set aside, what it replaced comes back and may not fit either.
constexpr int most_rounds = 100;

/// ", mass_g" of "fact 17, mass_g".
std::string part_of(const std::string& where, FactId id) {
    const std::string fact = fmt::format("fact {}", id);
    if (where.empty() || where == fact) return {};
    return where.starts_with(fact + ", ") ? where.substr(fact.size()) : ", " + where;
}

Error damaged(const Entry& entry, Error why) {
    why.kind = ErrorKind::damaged;
    const std::string of = entry.day < first_day ? "" : " of " + units::format_day(entry.day);
    why.where = fmt::format("entry {}{}{}", entry.id, of, part_of(why.where, entry.id));
    why.remedy = fmt::format(
        "look at what happened that day; then record what is right with --corrects {0}, or withdraw entry "
        "{0}",
        entry.id);
    return why;
}

std::optional<Error> impossible(const Entry& entry) {
    if (entry.id < 1 || entry.id > last_number)
        return base::invalid("the number of the entry is not possible", fmt::format("{}", entry.id),
                             fmt::format("1 to {}", last_number));
    if (entry.day < first_day)
        return base::invalid("the day is too long ago", units::format_day(entry.day), "from 1900-01-01 on");
    if (entry.corrects && (*entry.corrects < 1 || *entry.corrects >= entry.id))
        return base::invalid("it replaces an entry that does not come before it",
                             fmt::format("entry {}", *entry.corrects), "an earlier entry");
    if (const auto possible = check_amounts(entry.fact); !possible) return possible.error();
    return std::nullopt;
}

/// What is wrong with each entry looked at alone, or beside another that replaces the same.
std::map<FactId, Error> faults_alone(const std::vector<Entry>& journal, const Unreadable& unreadable) {
    std::map<FactId, Error> faults;
    std::map<FactId, FactId> replaced;
    for (const Entry& entry : journal) {
        const auto unread = unreadable.find(entry.id);
        auto fault = unread == unreadable.end() ? impossible(entry) : std::optional(unread->second);
        if (!fault && entry.corrects) {
            const auto [by, is_first] = replaced.emplace(*entry.corrects, entry.id);
            if (!is_first)
                fault = base::invalid("it replaces what another entry replaced already",
                                      fmt::format("entry {}", *entry.corrects),
                                      fmt::format("entry {} replaces it", by->second));
        }
        if (fault) faults.emplace(entry.id, damaged(entry, std::move(*fault)));
    }
    return faults;
}

std::set<FactId> replaced_in(const std::vector<Entry>& journal, const std::map<FactId, Error>& faults) {
    std::set<FactId> replaced;
    for (const Entry& entry : journal) {
        if (entry.corrects && !faults.contains(entry.id)) replaced.insert(*entry.corrects);
    }
    return replaced;
}

}  // namespace

base::Result<std::vector<SetAside>> set_aside(std::vector<Entry>& journal, const Unreadable& unreadable) {
    std::map<FactId, Error> faults = faults_alone(journal, unreadable);
    for (int round = 0; round < most_rounds; ++round) {
        const std::set<FactId> replaced = faults.empty() ? std::set<FactId>{} : replaced_in(journal, faults);
        for (Entry& entry : journal)
            entry.set_aside = faults.contains(entry.id) && !replaced.contains(entry.id);
        const auto contradictions = contradictions_in(pick_in_force(journal));
        for (const Contradiction& one : contradictions)
            faults.emplace(one.entry->id, damaged(*one.entry, one.error));
        if (!contradictions.empty()) continue;
        std::vector<SetAside> found;
        for (const Entry& entry : journal) {
            if (entry.set_aside) found.push_back({entry.id, faults.at(entry.id)});
        }
        return found;
    }
    return base::fail({ErrorKind::damaged,
                       "the entries contradict each other wherever one begins",
                       fmt::format("{} entries", faults.size()),
                       "a journal that was accepted entry by entry",
                       "restore the file from a copy",
                       {}});
}

bool bears_on_treatment(const Fact& fact) {
    return std::visit([]<class T>(const T&) { return T::kind.damaged == Damaged::speaks_against_treatment; },
                      fact);
}

}  // namespace mitefall::records
