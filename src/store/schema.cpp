#include "store/schema.h"

#include <fmt/format.h>

#include <array>

namespace mitefall::store {
namespace {

using base::ErrorKind;

// The journal. Triggers keep it append-only whoever opens the file. REPLACE deletes without firing the
// trigger for deletion (sqlite.org/lang_conflict.html), so it is caught on insertion.
constexpr const char* version_1 = R"sql(
CREATE TABLE fact (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    day         TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    recorded_at TEXT NOT NULL,
    kind        TEXT NOT NULL,
    body        TEXT NOT NULL CHECK (json_valid(body)),
    corrects    INTEGER UNIQUE REFERENCES fact(id),
    CONSTRAINT corrects_an_earlier_entry CHECK (corrects < id),
    CONSTRAINT withdraws_an_entry CHECK (kind <> 'withdrawn' OR corrects IS NOT NULL)
) STRICT;

CREATE TRIGGER fact_is_not_changed BEFORE UPDATE ON fact
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER fact_is_not_deleted BEFORE DELETE ON fact
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER fact_is_not_replaced BEFORE INSERT ON fact
WHEN EXISTS (SELECT 1 FROM fact WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER fact_is_corrected_once BEFORE INSERT ON fact
WHEN EXISTS (SELECT 1 FROM fact WHERE corrects = NEW.corrects)
BEGIN SELECT RAISE(ABORT, 'already corrected'); END;
)sql";

/// Step n leads from version n to n + 1.
constexpr std::array<const char*, newest_version> steps{version_1};

int read_pragma(SQLite::Database& database, const char* pragma) {
    return database.execAndGet(pragma).getInt();
}

}  // namespace

void prepare_connection(SQLite::Database& database) {
    database.exec("PRAGMA foreign_keys = ON");
    database.exec("PRAGMA recursive_triggers = ON");
    database.exec("PRAGMA synchronous = FULL");
    database.exec("PRAGMA journal_mode = WAL");
}

base::Result<void> check_header(SQLite::Database& database, const std::string& path) {
    if (const int owner = read_pragma(database, "PRAGMA application_id"); owner != application_id) {
        return base::fail({ErrorKind::damaged,
                           "the file is not a collection",
                           path,
                           "a collection file written by this program",
                           "choose the right file",
                           {}});
    }
    const int version = read_pragma(database, "PRAGMA user_version");
    if (version >= 0 && version <= newest_version) return {};
    return base::fail({ErrorKind::unsupported, "the collection was written by a newer version of the program",
                       fmt::format("file version {}", version),
                       fmt::format("this program reads up to file version {}", newest_version),
                       "update the program; the file was left as it is", path});
}

void migrate(SQLite::Database& database) {
    if (read_pragma(database, "PRAGMA user_version") == newest_version) return;
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    // Read again: another program may have migrated while this one waited for the lock.
    for (int version = read_pragma(database, "PRAGMA user_version"); version < newest_version; ++version) {
        database.exec(steps.at(static_cast<std::size_t>(version)));
        database.exec(fmt::format("PRAGMA user_version = {}", version + 1));
    }
    database.exec(fmt::format("PRAGMA application_id = {}", application_id));
    transaction.commit();
}

}  // namespace mitefall::store
