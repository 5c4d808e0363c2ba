#include "store/sqlite_error.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <string_view>

#include "store/schema.h"

namespace mitefall::store {
namespace {

using base::Error;
using base::ErrorKind;

Error explain_constraint(const SQLite::Exception& fault) {
    const std::string_view message = fault.what();
    const bool later = message.find("corrects_an_earlier_entry") != std::string_view::npos;
    if (later || fault.getExtendedErrorCode() == SQLITE_CONSTRAINT_FOREIGNKEY) {
        return {ErrorKind::not_found,
                "there is no entry to correct",
                "",
                "an entry of this journal",
                "look up the number of the entry in the history",
                {}};
    }
    if (message.find("already corrected") != std::string_view::npos) {
        return {ErrorKind::conflict,          "the entry was already corrected",    "",
                "an entry is corrected once", "correct the entry that replaced it", {}};
    }
    return {ErrorKind::conflict,  "the journal refuses the entry",
            std::string(message), "the rules of the file",
            "check the entry",    {}};
}

}  // namespace

Error explain_absence(const Gone& fault, const std::string& path) {
    return {ErrorKind::system,
            "the collection is no longer the file that was opened",
            path,
            fault.what(),
            "nothing was saved; put the file back, or close the program and open the collection again",
            {}};
}

// Codes: sqlite.org/rescode.html.
Error explain_failure(const SQLite::Exception& fault, const std::string& path) {
    if (fault.getExtendedErrorCode() == SQLITE_READONLY_DBMOVED)
        return explain_absence(Gone("moved, removed or replaced"), path);
    switch (fault.getErrorCode()) {
        case SQLITE_CONSTRAINT: return explain_constraint(fault);
        case SQLITE_NOTADB:
        case SQLITE_CORRUPT:
            return {ErrorKind::damaged,
                    "the file cannot be read as a collection",
                    path,
                    fault.what(),
                    "restore it from a copy; keep the damaged file until you have one that opens",
                    {}};
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return {ErrorKind::system,  "another program is writing to the collection", path,
                    "waited 5 seconds", "close the other program and try again",        {}};
        case SQLITE_READONLY:
        case SQLITE_CANTOPEN:
        case SQLITE_PERM:
            return {ErrorKind::system,
                    "the collection cannot be written here",
                    path,
                    "the file and its folder must be writable",
                    "move it to a folder of yours, or change its permissions",
                    {}};
        case SQLITE_TOOBIG:
            return {ErrorKind::damaged,
                    "the file holds a text that is too large for a collection",
                    path,
                    fmt::format("{} MB", largest_text >> 20),
                    "restore it from a copy",
                    {}};
        case SQLITE_INTERRUPT:
            return {ErrorKind::damaged,
                    "the file takes endless work to read",
                    path,
                    fmt::format("{} million steps of the database", most_steps / 1'000'000),
                    "restore it from a copy; do not open files of people you do not know",
                    {}};
        case SQLITE_FULL:
            return {ErrorKind::system, "the disk is full", path, "", "free some space and try again", {}};
        default: break;
    }
    const bool schema = fault.getErrorCode() == SQLITE_ERROR;
    return {schema ? ErrorKind::damaged : ErrorKind::system,
            schema ? "the file does not hold the tables of a collection" : "the disk or the database failed",
            path,
            fault.what(),
            schema ? "restore it from a copy" : "check the disk and try again",
            {}};
}

}  // namespace mitefall::store
