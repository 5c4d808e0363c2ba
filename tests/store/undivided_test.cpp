#include <SQLiteCpp/SQLiteCpp.h>

#include <thread>

#include "base/contract.h"
#include "scratch.h"
#include "store/collection_file.h"
#include "store/schema.h"

// What is checked and what is written make one piece, and the key of a request stays with what it wrote.
namespace mitefall::store {
namespace {

using base::ErrorKind;
using base::Result;
using records::FactId;
using records::TaskDone;

const units::Day day{std::chrono::year(2026) / 3 / 1};
const std::string now = "2026-03-01T21:04:05Z";

base::Failure refusal() { return base::fail(base::invalid("no", "", "")); }

class Undivided : public Scratch {
  protected:
    CollectionFile file = CollectionFile::create(at("c")).value();

    std::size_t count() { return file.journal().value().size(); }
    Result<FactId> put(const char* task) { return file.append(day, now, TaskDone{task}); }
};

TEST_F(Undivided, what_fails_leaves_nothing_however_deep) {
    const auto failed = file.undivided([&]() -> Result<void> {
        EXPECT_TRUE(put("outer"));
        return file.undivided([&]() -> Result<void> {
            EXPECT_TRUE(put("inner"));
            return refusal();
        });
    });
    ASSERT_FALSE(failed);
    EXPECT_EQ(failed.error().what, "no");
    EXPECT_EQ(count(), 0U);
    EXPECT_TRUE(file.undivided([&]() -> Result<void> {
        EXPECT_TRUE(file.append_all({{day, now, TaskDone{"a"}, {}}, {day, now, TaskDone{"b"}, {}}}));
        return {};
    }));
    EXPECT_EQ(count(), 2U);
}

TEST_F(Undivided, a_failed_part_is_never_kept) {
    EXPECT_THROW(static_cast<void>(file.undivided([&]() -> Result<void> {
                     EXPECT_TRUE(put("kept?"));
                     static_cast<void>(file.undivided([&]() -> Result<void> { return refusal(); }));
                     return {};
                 })),
                 base::ContractViolation);
    EXPECT_EQ(count(), 0U);
    EXPECT_TRUE(put("after")) << "the file can be written again";
}

TEST_F(Undivided, what_is_thrown_leaves_nothing) {
    EXPECT_THROW(static_cast<void>(file.undivided([&]() -> Result<void> {
                     EXPECT_TRUE(put("x"));
                     throw base::ContractViolation("broken");
                 })),
                 base::ContractViolation);
    EXPECT_EQ(count(), 0U);
}

// Each looks at how many there are and writes that number: two that came between one another would write one
// twice.
TEST_F(Undivided, four_writers_never_come_between_one_another) {
    constexpr int rounds = 50;
    const auto write = [&] {
        CollectionFile mine = CollectionFile::open(at("c")).value();
        for (int i = 0; i < rounds; ++i) {
            const auto done = mine.undivided([&]() -> Result<void> {
                const std::size_t number = mine.journal().value().size() + 1;
                const auto id = mine.append(day, now, TaskDone{std::to_string(number)});
                return id ? Result<void>() : base::fail(id.error());
            });
            EXPECT_TRUE(done) << done.error().message();
        }
    };
    std::vector<std::thread> writers;
    for (int i = 0; i < 4; ++i) writers.emplace_back(write);
    for (std::thread& writer : writers) writer.join();
    const auto journal = file.journal().value();
    ASSERT_EQ(journal.size(), 4U * rounds);
    for (std::size_t i = 0; i < journal.size(); ++i)
        EXPECT_EQ(journal[i].fact, records::Fact(TaskDone{std::to_string(i + 1)}));
}

TEST_F(Undivided, a_request_is_kept_for_good_with_its_entries) {
    ASSERT_TRUE(file.undivided([&]() -> Result<void> {
        EXPECT_TRUE(file.append_all(
            {{day, now, TaskDone{"a"}, {}, "request-1"}, {day, now, TaskDone{"b"}, {}, "request-1"}}));
        return file.keep_answer("request-1", {"asked", "[1,2]"});
    }));
    ASSERT_TRUE(put("without"));
    CollectionFile again = CollectionFile::open(at("c")).value();
    const auto answer = again.find_answer("request-1").value();
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->asked, "asked");
    EXPECT_EQ(answer->answer, "[1,2]");
    EXPECT_FALSE(again.find_answer("request-2").value());
    EXPECT_EQ(again.entries_of("request-1").value(), (std::vector<FactId>{1, 2}));
    EXPECT_EQ(again.request_of(2).value(), "request-1");
    EXPECT_EQ(again.request_of(3).value(), "");
    EXPECT_FALSE(again.keep_answer("request-1", {"other", "[]"})) << "a key is used once";
    EXPECT_EQ(again.find_answer("request-1").value()->asked, "asked");
    SQLite::Database raw(at("c").string(), SQLite::OPEN_READWRITE);
    for (const char* const sql : {"UPDATE request SET answer = '[]'", "DELETE FROM request",
                                  "REPLACE INTO request VALUES ('request-1', '', '[]')"})
        EXPECT_THROW(raw.exec(sql), SQLite::Exception) << sql;
}

TEST_F(Undivided, entries_of_a_request_that_is_not_kept_are_not_kept_either) {
    EXPECT_FALSE(file.append_all({{day, now, TaskDone{"a"}, {}, "unknown"}}));
    EXPECT_EQ(count(), 0U);
}

/// The tables as the first version of the program wrote them, written down once more.
constexpr const char* first_version = R"sql(
CREATE TABLE fact (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    day TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    recorded_at TEXT NOT NULL,
    kind TEXT NOT NULL,
    body TEXT NOT NULL CHECK (json_valid(body)),
    corrects INTEGER UNIQUE REFERENCES fact(id),
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
PRAGMA application_id = 0x4D74466C;
PRAGMA user_version = 1;
PRAGMA journal_mode = WAL;
INSERT INTO fact (day, recorded_at, kind, body) VALUES
    ('2026-02-01', '2026-02-01T08:00:00Z', 'task-done', '{"task":"one"}'),
    ('2026-02-02', '2026-02-02T08:00:00Z', 'task-done', '{"task":"two"}');
INSERT INTO fact (day, recorded_at, kind, body, corrects) VALUES
    ('2026-02-02', '2026-02-03T08:00:00Z', 'withdrawn', '{"reason":"no"}', 2);
)sql";

void expect_the_old_journal(CollectionFile& old) {
    const auto journal = old.journal();
    ASSERT_TRUE(journal) << journal.error().message();
    ASSERT_GE(journal->size(), 3U);
    EXPECT_EQ((*journal)[0].fact, records::Fact(TaskDone{"one"}));
    EXPECT_EQ((*journal)[2].corrects, 2);
    EXPECT_EQ(old.request_of(1).value(), "") << "nobody gave requests keys then";
    EXPECT_FALSE(old.find_answer("request-1").value());
    EXPECT_TRUE(old.entries_of("request-1").value().empty());
}

TEST_F(Undivided, a_file_of_the_first_version_reads_as_before_and_is_written_on) {
    {
        SQLite::Database raw(at("old").string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        raw.exec(first_version);
    }
    auto old = CollectionFile::open(at("old"));
    ASSERT_TRUE(old) << old.error().message();
    expect_the_old_journal(*old);
    ASSERT_TRUE(old->undivided([&]() -> Result<void> {
        EXPECT_EQ(old->append_all({{day, now, TaskDone{"three"}, {}, "request-3"}}).value().front(), 4);
        return old->keep_answer("request-3", {"x", "{}"});
    }));
    EXPECT_EQ(old->request_of(4).value(), "request-3");
    SQLite::Database raw(at("old").string(), SQLite::OPEN_READWRITE);
    EXPECT_EQ(raw.execAndGet("PRAGMA user_version").getInt(), newest_version);
    EXPECT_EQ(raw.execAndGet("PRAGMA integrity_check").getString(), "ok");
    EXPECT_THROW(raw.exec("UPDATE fact SET day = '2020-01-01'"), SQLite::Exception);
}

}  // namespace
}  // namespace mitefall::store
