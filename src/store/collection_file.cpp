#include "store/collection_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <system_error>
#include <utility>

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

constexpr mode_t for_its_owner = S_IRUSR | S_IWUSR;

base::Error cannot_make(const std::string& name, const std::error_code& cause) {
    if (cause == std::errc::file_exists) {
        return {ErrorKind::already_exists,
                "there is already a file of this name",
                name,
                "a new collection needs a new file",
                "choose another name, or open the file that is there",
                {}};
    }
    const bool missing = cause == std::errc::no_such_file_or_directory;
    return {missing ? ErrorKind::not_found : ErrorKind::system,
            missing ? "the folder does not exist" : "the file cannot be made",
            name,
            cause.message(),
            "choose a folder that exists and that you may write to",
            {}};
}

std::error_code last_fault() { return {errno, std::generic_category()}; }

/// Makes an empty file nobody else may read, or fails if there is one. A umask can only take more away.
Result<void> claim(const std::string& name) {
    const int file = ::open(name.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, for_its_owner);
    if (file < 0) return base::fail(cannot_make(name, last_fault()));
    ::close(file);
    return {};
}

/// An empty file of a name nobody has, beside `name`, for its owner only; gone when this goes, with what
/// SQLite may have left beside it.
class Draft {
  public:
    static Result<Draft> beside(const std::string& name) {
        std::string path = name + ".making-XXXXXX";
        const int file = ::mkstemp(path.data());
        if (file < 0) return base::fail(cannot_make(name, last_fault()));
        ::close(file);
        return Draft(std::move(path));
    }
    Draft(Draft&& other) noexcept : path_(std::exchange(other.path_, {})) {}
    Draft& operator=(Draft&&) = delete;
    ~Draft() {
        if (path_.empty()) return;
        for (const char* const part : {"", "-journal"}) std::remove((path_ + part).c_str());
    }
    [[nodiscard]] const std::string& path() const { return path_; }

    /// Gives the draft its name, unless it is taken.
    [[nodiscard]] Result<void> put_at(const std::string& name) const {
        if (::link(path_.c_str(), name.c_str()) == 0) return {};
        if (errno == EEXIST) return base::fail(cannot_make(name, last_fault()));
        // A file system without hard links.
        if (auto claimed = claim(name); !claimed) return claimed;
        if (std::rename(path_.c_str(), name.c_str()) == 0) return {};
        const std::error_code fault = last_fault();
        std::remove(name.c_str());
        return base::fail(cannot_make(name, fault));
    }

  private:
    explicit Draft(std::string path) : path_(std::move(path)) {}
    std::string path_;
};

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

/// In one piece: another program may be bringing the tables up to date.
Result<void> check_is_ours(SQLite::Database& database, const std::string& name) {
    const SQLite::Transaction reading(database);
    if (auto ours = check_header(database, name); !ours) return ours;
    return check_tables(database, name);
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
    std::error_code ignored;
    if (fs::exists(fs::symlink_status(name, ignored)))
        return base::fail(cannot_make(name, std::make_error_code(std::errc::file_exists)));
    const auto draft = Draft::beside(name);
    if (!draft) return base::fail(draft.error());
    const auto made = guarded(name, [&]() -> Result<bool> {
        SQLite::Database database = connect(draft->path());
        prepare_connection(database);
        migrate(database);
        return true;
    });
    if (!made) return base::fail(made.error());
    if (auto put = draft->put_at(name); !put) return base::fail(put.error());
    return open(path);
}

Result<CollectionFile> CollectionFile::open(const fs::path& path) {
    const std::string name = full_name(path);
    if (auto there = check_is_file(name); !there) return base::fail(there.error());
    return guarded(name, [&]() -> Result<CollectionFile> {
        auto allowed = std::make_unique<Steps>();
        SQLite::Database database = connect(name);
        be_careful(database, *allowed);
        if (auto ours = check_is_ours(database, name); !ours) return base::fail(ours.error());
        prepare_connection(database);
        if (!is_read_only(database)) migrate(database);
        return CollectionFile(std::make_unique<Connection>(std::move(database), std::move(allowed), name));
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
        held.see_that_it_is_there();
        SQLite::Transaction transaction(held.database, SQLite::TransactionBehavior::IMMEDIATE);
        held.see_that_it_is_there();
        Connection::Held scope(held);
        if (const auto done = work(); !done) return done;
        if (held.has_failed) throw base::ContractViolation("contract broken: a failed part was kept");
        held.see_that_it_is_there();
        transaction.commit();
        scope.keep();
        held.see_that_it_is_there();
        return {};
    });
    held.see_that_it_is_whole();
    return kept;
}

Result<FactId> CollectionFile::append(units::Day day, const std::string& recorded_at,
                                      const records::Fact& fact, std::optional<FactId> corrects) {
    const auto ids = append_all({{day, recorded_at, fact, corrects}});
    if (!ids) return base::fail(ids.error());
    return ids->front();
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
        connection_->see_that_it_is_there();
        return connection_->keeps_requests ? connection_->find_answer(request) : std::nullopt;
    });
}

Result<void> CollectionFile::keep_answer(const std::string& request, const Answered& answered) {
    return undivided([&]() -> Result<void> {
        return guarded(path(), [&]() -> Result<void> {
            SQLite::Statement insert(connection_->database,
                                     "INSERT INTO request (key, asked, answer) VALUES (?, ?, ?)");
            insert.bind(1, request);
            insert.bind(2, answered.asked);
            insert.bind(3, answered.answer);
            insert.exec();
            return {};
        });
    });
}

Result<std::vector<FactId>> CollectionFile::entries_of(const std::string& request) {
    return guarded(path(), [&]() -> Result<std::vector<FactId>> {
        std::vector<FactId> entries;
        connection_->see_that_it_is_there();
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
        connection_->see_that_it_is_there();
        SQLite::Statement copy(connection_->database, "VACUUM INTO ?");
        copy.bind(1, name);
        copy.exec();
        return true;
    });
    if (copied) return {};
    std::remove(name.c_str());
    return base::fail(copied.error());
}

Result<std::string> CollectionFile::copy() {
    return guarded(path(), [&]() -> Result<std::string> {
        connection_->see_that_it_is_there();
        sqlite3_int64 size = 0;
        const std::unique_ptr<unsigned char, void (*)(void*)> bytes(
            sqlite3_serialize(connection_->database.getHandle(), "main", &size, 0), sqlite3_free);
        if (bytes == nullptr)
            throw SQLite::Exception(connection_->database.getHandle(),
                                    sqlite3_errcode(connection_->database.getHandle()));
        const auto* const first = reinterpret_cast<const char*>(bytes.get());
        return std::string(first, first + size);
    });
}

Result<Rows> CollectionFile::rows(FactId after) {
    return guarded(path(), [&]() -> Result<Rows> {
        connection_->see_that_it_is_there();
        return connection_->read(after);
    });
}

Result<std::vector<records::Entry>> CollectionFile::journal(FactId after) {
    auto read = rows(after);
    if (!read) return base::fail(read.error());
    if (!read->unreadable.empty()) return base::fail(read->unreadable.front().second);
    return std::move(read->entries);
}

}  // namespace mitefall::store
