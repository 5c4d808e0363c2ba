#include "store/collection_file.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>

#include "base/contract.h"
#include "store/connection.h"
#include "store/sqlite_error.h"

namespace mitefall::store {
namespace {

namespace fs = std::filesystem;
using base::ErrorKind;
using base::Result;
using records::FactId;

/// Absolute, so that SQLite gives no name a special meaning (sqlite.org/inmemorydb.html).
std::string full_name(const fs::path& path) {
    std::error_code ignored;
    const fs::path full = fs::absolute(path, ignored);
    return (full.empty() ? path : full).string();
}

/// Makes an empty file, or fails if there is one: "x" is exclusive (C17, 7.21.5.3).
Result<void> claim(const std::string& name) {
    if (std::FILE* const file = std::fopen(name.c_str(), "wx")) {
        std::fclose(file);
        return {};
    }
    const std::error_code cause(errno, std::generic_category());
    if (cause == std::errc::file_exists) {
        return base::fail({ErrorKind::already_exists,
                           "there is already a file of this name",
                           name,
                           "a new collection needs a new file",
                           "choose another name, or open the file that is there",
                           {}});
    }
    const bool missing = cause == std::errc::no_such_file_or_directory;
    return base::fail({missing ? ErrorKind::not_found : ErrorKind::system,
                       missing ? "the folder does not exist" : "the file cannot be made",
                       name,
                       cause.message(),
                       "choose a folder that exists and that you may write to",
                       {}});
}

Result<void> check_is_file(const std::string& name) {
    std::error_code fault;
    const fs::file_status status = fs::status(name, fault);
    if (fs::is_regular_file(status)) return {};
    if (fs::exists(status)) {
        return base::fail({ErrorKind::damaged,
                           "this is not a file",
                           name,
                           "a collection is one file",
                           "choose the file",
                           {}});
    }
    return base::fail({ErrorKind::not_found,
                       "there is no such file",
                       name,
                       "a collection that was made before",
                       "check the name, or make a new collection",
                       {}});
}

SQLite::Database connect(const std::string& name) {
    return SQLite::Database(name, SQLite::OPEN_READWRITE, busy_timeout_ms);
}

/// Says which of several entries could not be written.
base::Error placed(base::Error error, std::size_t index, std::size_t count) {
    if (count > 1) error.where = fmt::format("entry {} of {}", index + 1, count);
    return error;
}

}  // namespace

CollectionFile::CollectionFile(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}
CollectionFile::CollectionFile(CollectionFile&&) noexcept = default;
CollectionFile& CollectionFile::operator=(CollectionFile&&) noexcept = default;
CollectionFile::~CollectionFile() = default;

const std::string& CollectionFile::path() const { return connection_->path; }

/// Made beside its place and put there whole, so that a keeper never meets half a collection.
Result<CollectionFile> CollectionFile::create(const fs::path& path) {
    const std::string name = full_name(path);
    if (auto claimed = claim(name); !claimed) return base::fail(claimed.error());
    std::remove(name.c_str());
    const std::string draft = name + ".making";
    for (const char* const part : {"", "-wal", "-shm", "-journal"}) std::remove((draft + part).c_str());
    if (auto claimed = claim(draft); !claimed) return base::fail(claimed.error());
    const auto made = guarded(name, [&]() -> Result<bool> {
        SQLite::Database database = connect(draft);
        prepare_connection(database);
        migrate(database);
        return true;
    });
    if (!made) return base::fail(made.error());
    const bool linked = ::link(draft.c_str(), name.c_str()) == 0;
    const bool taken = !linked && errno == EEXIST;
    if (!linked && !taken)
        std::rename(draft.c_str(), name.c_str());  // a file system without hard links
    else
        std::remove(draft.c_str());
    if (taken) return base::fail(claim(name).error());
    return open(path);
}

Result<CollectionFile> CollectionFile::open(const fs::path& path) {
    const std::string name = full_name(path);
    if (auto there = check_is_file(name); !there) return base::fail(there.error());
    return guarded(name, [&]() -> Result<CollectionFile> {
        SQLite::Database database = connect(name);
        if (auto ours = check_header(database, name); !ours) return base::fail(ours.error());
        prepare_connection(database);
        if (!is_read_only(database)) migrate(database);
        return CollectionFile(std::make_unique<Connection>(std::move(database), name));
    });
}

Result<void> CollectionFile::undivided(const std::function<Result<void>()>& work) {
    Connection& held = *connection_;
    if (held.is_held) {
        const auto done = work();
        held.has_failed = held.has_failed || !done;
        return done;
    }
    const auto kept = guarded(path(), [&]() -> Result<void> {
        SQLite::Transaction transaction(held.database, SQLite::TransactionBehavior::IMMEDIATE);
        const Connection::Held scope(held);
        if (const auto done = work(); !done) return done;
        if (held.has_failed) throw base::ContractViolation("contract broken: a failed part was kept");
        transaction.commit();
        return {};
    });
    held.see_that_it_is_whole();
    return kept;
}

Result<FactId> CollectionFile::append(units::Day day, const std::string& recorded_at,
                                      const records::Fact& fact, std::optional<FactId> corrects) {
    const auto id = guarded(path(), [&] { return connection_->insert({day, recorded_at, fact, corrects}); });
    connection_->see_that_it_is_whole();
    return id;
}

Result<std::vector<FactId>> CollectionFile::append_all(const std::vector<NewEntry>& entries) {
    std::size_t index = 0;
    auto written = guarded(path(), [&]() -> Result<std::vector<FactId>> {
        std::vector<FactId> ids;
        const auto all = undivided([&]() -> Result<void> {
            for (; index < entries.size(); ++index) {
                const auto id = connection_->insert(entries[index]);
                if (!id) return base::fail(id.error());
                ids.push_back(*id);
            }
            return {};
        });
        if (!all) return base::fail(all.error());
        return ids;
    });
    if (!written && index < entries.size()) return base::fail(placed(written.error(), index, entries.size()));
    return written;
}

Result<std::optional<Answered>> CollectionFile::find_answer(const std::string& request) {
    return guarded(path(), [&]() -> Result<std::optional<Answered>> {
        return connection_->keeps_requests ? connection_->find_answer(request) : std::nullopt;
    });
}

Result<void> CollectionFile::keep_answer(const std::string& request, const Answered& answered) {
    const auto kept = guarded(path(), [&]() -> Result<void> {
        SQLite::Statement insert(connection_->database,
                                 "INSERT INTO request (key, asked, answer) VALUES (?, ?, ?)");
        insert.bind(1, request);
        insert.bind(2, answered.asked);
        insert.bind(3, answered.answer);
        insert.exec();
        return {};
    });
    connection_->see_that_it_is_whole();
    return kept;
}

Result<std::vector<FactId>> CollectionFile::entries_of(const std::string& request) {
    return guarded(path(), [&]() -> Result<std::vector<FactId>> {
        std::vector<FactId> entries;
        if (!connection_->keeps_requests) return entries;
        SQLite::Statement select(connection_->database, "SELECT id FROM fact WHERE request = ? ORDER BY id");
        select.bind(1, request);
        while (select.executeStep()) entries.push_back(select.getColumn(0).getInt64());
        return entries;
    });
}

Result<std::string> CollectionFile::request_of(FactId entry) {
    return guarded(path(), [&]() -> Result<std::string> {
        if (!connection_->keeps_requests) return std::string();
        SQLite::Statement select(connection_->database,
                                 "SELECT request FROM fact WHERE id = ? AND request IS NOT NULL");
        select.bind(1, static_cast<std::int64_t>(entry));
        return select.executeStep() ? select.getColumn(0).getString() : std::string();
    });
}

Result<void> CollectionFile::copy_to(const fs::path& to) {
    const std::string name = full_name(to);
    if (auto claimed = claim(name); !claimed) return claimed;
    const auto copied = guarded(name, [&]() -> Result<bool> {
        SQLite::Statement copy(connection_->database, "VACUUM INTO ?");
        copy.bind(1, name);
        copy.exec();
        return true;
    });
    if (copied) return {};
    std::remove(name.c_str());
    return base::fail(copied.error());
}

Result<std::vector<records::Entry>> CollectionFile::journal(FactId after) {
    return guarded(path(), [&] { return connection_->read(after); });
}

}  // namespace mitefall::store
