#include "store/connection.h"

#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include "store/fact_reader.h"
#include "store/sqlite_error.h"

namespace mitefall::store {
namespace {

using base::Result;
using records::Entry;
using records::FactId;

/// Leaves a statement ready for its next use, however the scope ends.
class Run {
  public:
    explicit Run(SQLite::Statement& statement) : statement_(statement) {}
    ~Run() { statement_.tryReset(); }
    Run(const Run&) = delete;
    Run& operator=(const Run&) = delete;

  private:
    SQLite::Statement& statement_;
};

Result<void> check_day(units::Day day) {
    const auto known = units::parse_day(units::format_day(day));
    if (!known) return base::fail(known.error());
    return {};
}

/// What tells one row from another: a row of a journal never changes.
std::string text_of(SQLite::Statement& row) {
    std::string text;
    for (int column = 1; column <= 4; ++column)
        text.append(row.getColumn(column).getString()).append(1, '\0');
    return text;
}

/// Throws where the file gives rows that no table can hold: pages that are their own children, or the same
/// bytes over and over.
class Plausible {
  public:
    Plausible(FactId after, SQLite::Database& database) : last_(after), database_(database) {}

    void take(SQLite::Statement& row) {
        const FactId id = row.getColumn(0).getInt64();
        for (int column = 1; column <= 4; ++column) bytes_ += row.getColumn(column).getBytes();
        if (bytes_ > most_ && !is_measured_) measure();
        if (id <= last_ || bytes_ > most_)
            throw SQLite::Exception("its rows contradict each other", SQLITE_CORRUPT);
        last_ = id;
    }

  private:
    /// A character of UTF-16 in the file has at most three bytes in UTF-8 where it had two.
    void measure() {
        const auto number = [&](const char* pragma) { return database_.execAndGet(pragma).getInt64(); };
        most_ = 2 * number("PRAGMA page_count") * number("PRAGMA page_size");
        is_measured_ = true;
    }

    FactId last_;
    SQLite::Database& database_;
    std::int64_t bytes_ = 0;
    std::int64_t most_ = 1 << 16;  ///< no need to measure below
    bool is_measured_ = false;
};

/// The error where the fact cannot be read; the rest of the entry stands.
std::optional<base::Error> read_row(SQLite::Statement& row, Entry& entry) {
    entry.id = row.getColumn(0).getInt64();
    entry.recorded_at = row.getColumn(2).getString();
    if (row.getColumn(5).isInteger()) entry.corrects = row.getColumn(5).getInt64();
    entry.fact = records::Withdrawn{"this entry cannot be read"};
    const auto day = units::parse_day(row.getColumn(1).getString());
    if (!day) {
        entry.day = units::Day(std::chrono::year(1) / 1 / 1);
        return unreadable(entry.id, "day", day.error().what, day.error().value, day.error().limit);
    }
    entry.day = *day;
    if (!row.getColumn(5).isNull() && !row.getColumn(5).isInteger())
        return unreadable(entry.id, "corrects", "not a number", row.getColumn(5).getString().substr(0, 60),
                          "the number of an entry");
    auto fact = decode(entry.id, row.getColumn(3).getString(), row.getColumn(4).getString());
    if (!fact) return fact.error();
    entry.fact = std::move(*fact);
    return std::nullopt;
}

FileNumber number_of(const std::string& path) {
    struct stat found {};
    if (::stat(path.c_str(), &found) != 0) return {};
    return {static_cast<std::uint64_t>(found.st_dev), static_cast<std::uint64_t>(found.st_ino)};
}

}  // namespace

CollectionFile::Connection::Connection(SQLite::Database opened, std::unique_ptr<Steps> allowed,
                                       std::string at)
    : path(std::move(at)),
      database(std::move(opened)),
      steps(std::move(allowed)),
      number(number_of(path)),
      is_whole(is_read_only(database) || keep_whole(database)),
      keeps_requests(version_of(database) >= first_with_requests),
      insert_fact(database,
                  keeps_requests
                      ? "INSERT INTO fact (day, recorded_at, kind, body, corrects, request) VALUES (?, ?, ?, "
                        "?, ?, ?)"
                      : "INSERT INTO fact (day, recorded_at, kind, body, corrects) VALUES (?, ?, ?, ?, ?)"),
      select_facts(database,
                   "SELECT id, day, recorded_at, kind, body, corrects FROM fact WHERE id > ? ORDER BY id"),
      select_row(database, "SELECT id, day, recorded_at, kind, body FROM fact WHERE id = ?") {}

Result<FactId> CollectionFile::Connection::insert(const NewEntry& entry) {
    if (const auto good = check_day(entry.day); !good) return base::fail(good.error());
    const auto text = encode(entry.fact);
    if (!text) return base::fail(text.error());
    if (text->body.size() > largest_body)
        return base::fail(base::Error{base::ErrorKind::unsupported,
                                      "one entry is larger than a collection can hold",
                                      fmt::format("{} MB", text->body.size() >> 20U),
                                      fmt::format("{} MB", largest_body >> 20U),
                                      "do it for fewer enclosures at a time (of a plan: --only)",
                                      {}});
    const Run run(insert_fact);
    insert_fact.clearBindings();
    insert_fact.bind(1, units::format_day(entry.day));
    insert_fact.bind(2, entry.recorded_at);
    insert_fact.bind(3, text->kind);
    insert_fact.bind(4, text->body);
    if (entry.corrects) insert_fact.bind(5, static_cast<std::int64_t>(*entry.corrects));
    if (!entry.request.empty()) insert_fact.bind(6, entry.request);
    insert_fact.exec();
    return database.getLastInsertRowid();
}

Rows CollectionFile::Connection::read(FactId after) {
    const Run run(select_facts);
    select_facts.bind(1, static_cast<std::int64_t>(after));
    Plausible plausible(after, database);
    Rows rows;
    while (select_facts.executeStep()) {
        Entry entry;
        plausible.take(select_facts);
        if (auto fault = read_row(select_facts, entry))
            rows.unreadable.emplace_back(entry.id, std::move(*fault));
        last_row = {entry.id, text_of(select_facts)};
        rows.entries.push_back(std::move(entry));
    }
    return rows;
}

// SQLite holds the file open, so its number on the device is not given to another meanwhile
// (sqlite.org/c3ref, SQLITE_FCNTL_HAS_MOVED). A copy put over the file keeps the number; its journal does not
// go on from what was read, unless it is the same journal.
void CollectionFile::Connection::see_that_it_is_there() {
    steps->left = most_steps;
    int has_moved = 0;
    sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_HAS_MOVED, &has_moved);
    if (has_moved != 0 || number_of(path) != number) throw Gone("moved, removed or replaced");
    if (last_row.id != before_all && !holds(last_row)) throw Gone("another collection was written over it");
}

/// What SQLite remembers of the file is forgotten first: it trusts a counter in the file, and another file
/// may have counted as far.
bool CollectionFile::Connection::holds(const Known& row) {
    sqlite3_db_release_memory(database.getHandle());
    const Run run(select_row);
    try {
        select_row.bind(1, static_cast<std::int64_t>(row.id));
        return select_row.executeStep() && text_of(select_row) == row.text;
    } catch (const SQLite::Exception& fault) {
        // No table of that name, or no database at all: emptied, or something else lies there.
        if (fault.getErrorCode() == SQLITE_ERROR || fault.getErrorCode() == SQLITE_NOTADB) return false;
        throw;
    }
}

std::optional<Answered> CollectionFile::Connection::find_answer(const std::string& request) {
    SQLite::Statement select(database, "SELECT asked, answer FROM request WHERE key = ?");
    select.bind(1, request);
    if (!select.executeStep()) return std::nullopt;
    return Answered{select.getColumn(0).getString(), select.getColumn(1).getString()};
}

void CollectionFile::Connection::see_that_it_is_whole() {
    if (is_whole || is_held) return;
    try {
        is_whole = keep_whole(database);
    } catch (const SQLite::Exception&) {
        // What was written is on the disk all the same, in the log; the next write tries again.
    }
}

}  // namespace mitefall::store
