#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include "base/result.h"

namespace mitefall::store {

/// In the header of every collection file (sqlite.org/fileformat.html, "application id"): "MtFl" in ASCII.
constexpr int application_id = 0x4D74466C;

/// The version of the tables this program writes; in the header as `user_version`.
constexpr int newest_version = 2;
constexpr int first_with_requests = 2;  ///< entries name the request they came with

/// Sets what holds for a connection only: foreign keys, synchronisation, and that the file is whole.
void prepare_connection(SQLite::Database& database);

/// Sees to it that the one file holds everything whenever nothing is being written, so that a plain copy of
/// it is a copy of the collection (sqlite.org/pragma.html, journal_mode DELETE). Earlier versions of the
/// program kept a write-ahead log beside it; while one of them has the file open the log cannot be left, only
/// emptied into the file: then false. Not within a transaction.
[[nodiscard]] bool keep_whole(SQLite::Database& database);

/// The version of the tables in the file.
[[nodiscard]] int version_of(SQLite::Database& database);
/// The file may be read but not written, by its permissions.
[[nodiscard]] bool is_read_only(const SQLite::Database& database);

/// Refuses files that are not ours and files from a newer version of the program.
[[nodiscard]] base::Result<void> check_header(SQLite::Database& database, const std::string& path);

/// Brings the tables to the newest version, all steps in one transaction. A new file starts at version 0.
void migrate(SQLite::Database& database);

}  // namespace mitefall::store
