#include "store/schema.h"

#include <fmt/format.h>
#include <sqlite3.h>

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

// A request sent again is known by its key, and answered as the first time. The row of a request is written
// after its entries, in the same transaction.
constexpr const char* version_2 = R"sql(
CREATE TABLE request (
    key    TEXT PRIMARY KEY NOT NULL,
    asked  TEXT NOT NULL,
    answer TEXT NOT NULL CHECK (json_valid(answer))
) STRICT, WITHOUT ROWID;

CREATE TRIGGER request_is_not_changed BEFORE UPDATE ON request
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER request_is_not_deleted BEFORE DELETE ON request
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

CREATE TRIGGER request_is_not_replaced BEFORE INSERT ON request
WHEN EXISTS (SELECT 1 FROM request WHERE key = NEW.key)
BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END;

ALTER TABLE fact ADD COLUMN request TEXT REFERENCES request(key) DEFERRABLE INITIALLY DEFERRED;

CREATE INDEX fact_of_request ON fact(request) WHERE request IS NOT NULL;
)sql";

/// Step n leads from version n to n + 1.
constexpr std::array<const char*, newest_version> steps{version_1, version_2};

int read_pragma(SQLite::Database& database, const char* pragma) {
    return database.execAndGet(pragma).getInt();
}

}  // namespace

int version_of(SQLite::Database& database) { return read_pragma(database, "PRAGMA user_version"); }

bool is_read_only(const SQLite::Database& database) {
    return sqlite3_db_readonly(database.getHandle(), "main") == 1;
}

void prepare_connection(SQLite::Database& database) {
    database.exec("PRAGMA foreign_keys = ON");
    database.exec("PRAGMA recursive_triggers = ON");
    database.exec("PRAGMA synchronous = EXTRA");
}

bool keep_whole(SQLite::Database& database) {
    const auto mode = [&](const char* pragma) { return database.execAndGet(pragma).getString(); };
    if (mode("PRAGMA journal_mode") != "wal") return true;
    try {
        return mode("PRAGMA journal_mode = DELETE") != "wal";
    } catch (const SQLite::Exception& fault) {
        if (fault.getErrorCode() != SQLITE_BUSY && fault.getErrorCode() != SQLITE_LOCKED) throw;
    }
    SQLite::Statement(database, "PRAGMA wal_checkpoint(PASSIVE)").executeStep();
    return false;
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
    const int version = version_of(database);
    if (version >= 0 && version <= newest_version) return {};
    return base::fail({ErrorKind::unsupported, "the collection was written by a newer version of the program",
                       fmt::format("file version {}", version),
                       fmt::format("this program reads up to file version {}", newest_version),
                       "update the program; the file was left as it is", path});
}

void migrate(SQLite::Database& database) {
    if (version_of(database) == newest_version) return;
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    // Read again: another program may have migrated while this one waited for the lock.
    for (int version = version_of(database); version < newest_version; ++version) {
        database.exec(steps.at(static_cast<std::size_t>(version)));
        database.exec(fmt::format("PRAGMA user_version = {}", version + 1));
    }
    database.exec(fmt::format("PRAGMA application_id = {}", application_id));
    transaction.commit();
}

}  // namespace mitefall::store
