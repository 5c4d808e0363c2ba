#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include "base/result.h"

namespace mitefall::store {

/// In the header of every collection file (sqlite.org/fileformat.html, "application id"): "MtFl" in ASCII.
constexpr int application_id = 0x4D74466C;

/// The version of the tables this program writes; in the header as `user_version`.
constexpr int newest_version = 1;

/// Sets what holds for a connection only: foreign keys, full synchronisation, write-ahead log.
void prepare_connection(SQLite::Database& database);

/// Refuses files that are not ours and files from a newer version of the program.
[[nodiscard]] base::Result<void> check_header(SQLite::Database& database, const std::string& path);

/// Brings the tables to the newest version, all steps in one transaction. A new file starts at version 0.
void migrate(SQLite::Database& database);

}  // namespace mitefall::store
