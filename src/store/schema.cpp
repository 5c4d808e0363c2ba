#include "store/schema.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <array>
#include <compare>
#include <nlohmann/json.hpp>
#include <set>

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

constexpr int steps_between = 10'000;  ///< two looks at how many are left

/// One table, index, trigger or view, as SQLite keeps it. Spaces do not tell.
struct Part {
    std::string type;
    std::string name;
    std::string sql;
    friend auto operator<=>(const Part&, const Part&) = default;
};

std::string without_spaces(std::string_view sql) {
    std::string text;
    for (const char c : sql) {
        if (c != ' ' && c != '\n' && c != '\r' && c != '\t') text += c;
    }
    return text;
}

std::set<Part> parts_of(SQLite::Database& database) {
    std::set<Part> parts;
    SQLite::Statement select(database, "SELECT type, name, tbl_name, sql FROM sqlite_schema");
    while (select.executeStep())
        parts.insert(
            {select.getColumn(0).getString(), select.getColumn(1).getString(),
             select.getColumn(2).getString() + ":" + without_spaces(select.getColumn(3).getString())});
    return parts;
}

std::set<Part> parts_of_version(int version) {
    SQLite::Database ours(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    for (int step = 0; step < version; ++step) ours.exec(steps.at(static_cast<std::size_t>(step)));
    return parts_of(ours);
}

base::Error other_tables(const std::string& what, const Part& part, const std::string& path) {
    return {
        ErrorKind::damaged,
        what,
        part.type + " " + part.name.substr(0, 60),
        "exactly the tables, indices and triggers this program makes",
        "restore the collection from a copy of yours; it was changed by something other than this program",
        path};
}

int count_steps(void* allowed) {
    auto& left = static_cast<Steps*>(allowed)->left;
    left -= steps_between;
    return left < 0 ? 1 : 0;
}

/// As the function of SQLite, which version 3.40 does not let an untrusted schema call.
void json_valid(sqlite3_context* context, int, sqlite3_value** values) {
    if (sqlite3_value_type(values[0]) == SQLITE_NULL) return sqlite3_result_null(context);
    const auto* const first = reinterpret_cast<const char*>(sqlite3_value_text(values[0]));
    const auto length = static_cast<std::size_t>(sqlite3_value_bytes(values[0]));
    const bool good = first != nullptr && nlohmann::json::accept(first, first + length);
    sqlite3_result_int(context, good ? 1 : 0);
}

}  // namespace

void be_careful(SQLite::Database& database, Steps& allowed) {
    sqlite3* const handle = database.getHandle();
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_VIEW, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0, nullptr);
    sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, largest_text);
    sqlite3_limit(handle, SQLITE_LIMIT_SQL_LENGTH, 100'000);
    sqlite3_limit(handle, SQLITE_LIMIT_COLUMN, 100);
    sqlite3_limit(handle, SQLITE_LIMIT_EXPR_DEPTH, 100);
    sqlite3_limit(handle, SQLITE_LIMIT_COMPOUND_SELECT, 10);
    sqlite3_limit(handle, SQLITE_LIMIT_FUNCTION_ARG, 10);
    sqlite3_limit(handle, SQLITE_LIMIT_ATTACHED, 1);  // VACUUM INTO needs one
    sqlite3_limit(handle, SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 200);
    sqlite3_limit(handle, SQLITE_LIMIT_TRIGGER_DEPTH, 10);
    sqlite3_create_function_v2(handle, "json_valid", 1, SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_INNOCUOUS,
                               nullptr, json_valid, nullptr, nullptr, nullptr);
    sqlite3_progress_handler(handle, steps_between, count_steps, &allowed);
    database.exec("PRAGMA cell_size_check = ON");
    database.exec("PRAGMA mmap_size = 0");
}

base::Result<void> check_tables(SQLite::Database& database, const std::string& path) {
    const std::set<Part> found = parts_of(database);
    const std::set<Part> ours = parts_of_version(version_of(database));
    for (const Part& part : found) {
        if (!ours.contains(part))
            return base::fail(other_tables("the file holds what is not of a collection", part, path));
    }
    for (const Part& part : ours) {
        if (!found.contains(part))
            return base::fail(other_tables("the file lacks a part of a collection", part, path));
    }
    return {};
}

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
