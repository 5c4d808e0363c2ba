#include "store/connection.h"

#include "store/fact_reader.h"

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

Result<Entry> read_row(SQLite::Statement& row) {
    Entry entry;
    entry.id = row.getColumn(0).getInt64();
    const auto day = units::parse_day(row.getColumn(1).getString());
    if (!day)
        return base::fail(
            unreadable(entry.id, "day", day.error().what, day.error().value, day.error().limit));
    auto fact = decode(entry.id, row.getColumn(3).getString(), row.getColumn(4).getString());
    if (!fact) return base::fail(fact.error());
    entry.day = *day;
    entry.recorded_at = row.getColumn(2).getString();
    entry.fact = std::move(*fact);
    if (!row.isColumnNull(5)) entry.corrects = row.getColumn(5).getInt64();
    return entry;
}

}  // namespace

CollectionFile::Connection::Connection(SQLite::Database opened, std::string at)
    : path(std::move(at)),
      database(std::move(opened)),
      is_whole(is_read_only(database) || keep_whole(database)),
      keeps_requests(version_of(database) >= first_with_requests),
      insert_fact(database,
                  keeps_requests
                      ? "INSERT INTO fact (day, recorded_at, kind, body, corrects, request) VALUES (?, ?, ?, "
                        "?, ?, ?)"
                      : "INSERT INTO fact (day, recorded_at, kind, body, corrects) VALUES (?, ?, ?, ?, ?)"),
      select_facts(database,
                   "SELECT id, day, recorded_at, kind, body, corrects FROM fact WHERE id > ? ORDER BY id") {}

Result<FactId> CollectionFile::Connection::insert(const NewEntry& entry) {
    if (const auto good = check_day(entry.day); !good) return base::fail(good.error());
    const auto text = encode(entry.fact);
    if (!text) return base::fail(text.error());
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

Result<std::vector<Entry>> CollectionFile::Connection::read(FactId after) {
    const Run run(select_facts);
    select_facts.bind(1, static_cast<std::int64_t>(after));
    std::vector<Entry> entries;
    while (select_facts.executeStep()) {
        auto entry = read_row(select_facts);
        if (!entry) return base::fail(entry.error());
        entries.push_back(std::move(*entry));
    }
    return entries;
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
