#include "web/mishap.h"

#include <fmt/format.h>

#include <new>
#include <optional>
#include <system_error>

#include "base/contract.h"
#include "service/worklist.h"

namespace mitefall::web {
namespace {

using base::ErrorKind;

/// Whether the records can be read and judged up to that entry.
bool can_be_read(const service::Keeper& keeper, records::FactId last, units::Day today) {
    try {
        const auto then = keeper.situation(last, today);
        if (then) static_cast<void>(service::overview_of(**then));
        return true;
    } catch (...) {
        return false;
    }
}

std::optional<records::Entry> culprit(const Desk& desk) {
    const auto keeper = service::Keeper::open(desk.file(), desk.knowledge());
    if (!keeper) return std::nullopt;
    const auto journal = keeper->journal();
    if (!journal) return std::nullopt;
    const auto index = first_unreadable(journal->size(), [&](std::size_t count) {
        return count == 0 || can_be_read(*keeper, (*journal)[count - 1].id, desk.now().today);
    });
    return index ? std::optional((*journal)[*index]) : std::nullopt;
}

base::Error defect_of_the_program() {
    return {ErrorKind::system,
            "this is a defect of the program, nothing was changed",
            {},
            {},
            "report it with what you asked; the journal and the copy of the collection still open",
            {}};
}

base::Error broken_promise(const Desk& desk) {
    const auto entry = culprit(desk);
    if (!entry) return defect_of_the_program();
    return {ErrorKind::damaged,
            "the collection file holds an entry that breaks a rule of the program",
            fmt::format("entry {} of {}", entry->id, units::format_day(entry->day)),
            {},
            "look at this entry in the journal, which still opens, and take it back or put it right",
            fmt::format("entry {}", entry->id)};
}

}  // namespace

std::optional<std::size_t> first_unreadable(std::size_t entries,
                                            const std::function<bool(std::size_t)>& can_be_read) {
    if (can_be_read(entries)) return std::nullopt;
    std::size_t sound = 0;
    std::size_t broken = entries;
    while (sound + 1 < broken) {
        const std::size_t middle = sound + (broken - sound) / 2;
        (can_be_read(middle) ? sound : broken) = middle;
    }
    return broken - 1;
}

base::Error what_went_wrong(const Desk& desk) {
    try {
        throw;
    } catch (const base::ContractViolation&) {
        try {
            return broken_promise(desk);
        } catch (...) {
            return defect_of_the_program();
        }
    } catch (const std::bad_alloc&) {
        return {
            ErrorKind::system, "there is not enough memory for this", {}, {}, "ask for less at a time", {}};
    } catch (const std::system_error& fault) {
        return {ErrorKind::system,
                "the system could not do this",
                {},
                fault.code().message(),
                "see that the disk has room and that the program may write there, then try again",
                {}};
    } catch (...) {
        return defect_of_the_program();
    }
}

}  // namespace mitefall::web
