#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <cstddef>
#include <cstdint>
#include <string>

#include "base/result.h"

namespace mitefall::store {

/// In the header of every collection file (sqlite.org/fileformat.html, "application id"): "MtFl" in ASCII.
constexpr int application_id = 0x4D74466C;

/// The version of the tables this program writes; in the header as `user_version`.
constexpr int newest_version = 2;
constexpr int first_with_requests = 2;  ///< entries name the request they came with

/// Bounds for files nobody vouches for. A course of eight rounds for 1,000 enclosures takes some 6 MB;
/// reading a million entries takes some 20 million steps.
constexpr int largest_text = 64 << 20;  ///< bytes
/// Bytes of what an entry says; the rest of a row is for what stands beside it.
constexpr std::size_t largest_body = largest_text - (1U << 20U);
constexpr std::int64_t most_steps = 200'000'000;  ///< of the virtual machine of SQLite, for one question

/// How many steps SQLite may still take. Lives as long as the connection that counts them.
struct Steps {
    std::int64_t left = most_steps;
};

/// To be called before anything is asked of a file: nothing its tables bring along is trusted, sizes and
/// steps are bounded (sqlite.org/security.html).
void be_careful(SQLite::Database& database, Steps& allowed);

/// Refuses a file whose tables, indices and triggers are not exactly those of its version, in words.
[[nodiscard]] base::Result<void> check_tables(SQLite::Database& database, const std::string& path);

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
