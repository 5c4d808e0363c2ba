#include "store/collection_file.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include "any_fact.h"
#include "scratch.h"
#include "store/schema.h"

namespace mitefall::store {
namespace {

using base::ErrorKind;
using records::Entry;
using records::Fact;
using records::FactId;

const units::Day day{std::chrono::year(2026) / 3 / 1};
const std::string now = "2026-03-01T21:04:05Z";

class Files : public Scratch {
  protected:
    static void run_sql(const std::filesystem::path& path, const char* sql) {
        SQLite::Database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec(sql);
    }
    static std::string refusal_of(const std::filesystem::path& path, const char* sql) {
        try {
            run_sql(path, sql);
        } catch (const SQLite::Exception& fault) {
            return fault.what();
        }
        return "";
    }
};

TEST_F(Files, a_new_collection_is_empty_and_ours) {
    auto file = CollectionFile::create(at("c.mitefall"));
    ASSERT_TRUE(file) << file.error().message();
    EXPECT_TRUE(file->journal().value().empty());
    SQLite::Database raw(at("c.mitefall").string());
    EXPECT_EQ(raw.execAndGet("PRAGMA application_id").getInt(), application_id);
    EXPECT_EQ(raw.execAndGet("PRAGMA user_version").getInt(), newest_version);
    EXPECT_EQ(raw.execAndGet("PRAGMA journal_mode").getString(), "delete");
    EXPECT_EQ(raw.execAndGet("PRAGMA integrity_check").getString(), "ok");
}

TEST_F(Files, an_existing_file_is_never_overwritten) {
    write_bytes(at("notes.txt"), "my notes");
    const auto refused = CollectionFile::create(at("notes.txt"));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::already_exists);
    EXPECT_EQ(read_bytes(at("notes.txt")), "my notes");
}

TEST_F(Files, names_special_to_sqlite_are_plain_names) {
    const auto before = std::filesystem::current_path();
    std::filesystem::current_path(at(""));
    for (const char* const name : {":memory:", "file:x?mode=memory", "it's; a \"name\""}) {
        const auto made = CollectionFile::create(name);
        EXPECT_TRUE(made) << name << ": " << made.error().message();
        EXPECT_TRUE(std::filesystem::is_regular_file(at(name))) << name;
    }
    std::filesystem::current_path(before);
}

TEST_F(Files, entries_come_back_after_closing) {
    std::vector<FactId> ids;
    {
        auto file = CollectionFile::create(at("c")).value();
        ids.push_back(file.append(day, now, records::TaskDone{"one"}).value());
        ids.push_back(file.append(day + units::Days(1), now, records::TaskDone{"two"}, ids[0]).value());
    }
    EXPECT_EQ(ids, (std::vector<FactId>{1, 2}));
    const auto journal = CollectionFile::open(at("c")).value().journal().value();
    ASSERT_EQ(journal.size(), 2U);
    EXPECT_EQ(journal[0].id, 1);
    EXPECT_EQ(journal[0].day, day);
    EXPECT_EQ(journal[0].recorded_at, now);
    EXPECT_EQ(journal[0].fact, Fact(records::TaskDone{"one"}));
    EXPECT_EQ(journal[0].corrects, std::nullopt);
    EXPECT_EQ(journal[1].corrects, 1);
    EXPECT_EQ(journal[1].day, day + units::Days(1));
}

TEST_F(Files, a_journal_of_every_kind_reads_back_exactly) {
    int number = 0;
    EXPECT_TRUE(rc::check("a journal written and read again is the same", [&] {
        const auto path = at(std::to_string(number++));
        std::vector<NewEntry> entries{{any_day(), any_text(), records::TaskDone{"first"}, {}}};
        for (std::size_t kind = 0; kind < kinds_of_fact; ++kind) {
            entries.push_back({any_day(), any_text(), any_fact(kind), {}});
            // A withdrawal withdraws something.
            if (std::holds_alternative<records::Withdrawn>(entries.back().fact)) entries.back().corrects = 1;
        }
        const auto ids = CollectionFile::create(path).value().append_all(entries).value();
        const auto journal = CollectionFile::open(path).value().journal().value();
        std::filesystem::remove(path);
        RC_ASSERT(journal.size() == entries.size());
        for (std::size_t i = 0; i < entries.size(); ++i) {
            RC_ASSERT(journal[i].id == ids[i]);
            RC_ASSERT(journal[i].day == entries[i].day);
            RC_ASSERT(journal[i].recorded_at == entries[i].recorded_at);
            RC_ASSERT(journal[i].fact == entries[i].fact);
            RC_ASSERT(journal[i].corrects == entries[i].corrects);
        }
    }));
}

TEST_F(Files, the_journal_can_be_read_from_a_number_on) {
    auto file = CollectionFile::create(at("c")).value();
    for (const char* const task : {"one", "two", "three"})
        ASSERT_TRUE(file.append(day, now, records::TaskDone{task}));
    EXPECT_EQ(file.journal(2).value().size(), 1U);
    EXPECT_EQ(file.journal(2).value()[0].id, 3);
    EXPECT_TRUE(file.journal(3).value().empty());
}

TEST_F(Files, corrections_of_nothing_or_made_twice_are_refused) {
    auto file = CollectionFile::create(at("c")).value();
    const FactId first = file.append(day, now, records::TaskDone{"one"}).value();
    const auto nothing = file.append(day, now, records::TaskDone{"two"}, 99);
    ASSERT_FALSE(nothing);
    EXPECT_EQ(nothing.error().kind, ErrorKind::not_found);
    EXPECT_EQ(file.append(day, now, records::Withdrawn{""}).error().kind, ErrorKind::conflict);
    ASSERT_TRUE(file.append(day, now, records::Withdrawn{""}, first));
    const auto twice = file.append(day, now, records::Withdrawn{""}, first);
    ASSERT_FALSE(twice);
    EXPECT_EQ(twice.error().kind, ErrorKind::conflict);
    EXPECT_NE(twice.error().what.find("already corrected"), std::string::npos);
    EXPECT_EQ(file.journal().value().size(), 2U);
}

TEST_F(Files, all_or_none) {
    auto file = CollectionFile::create(at("c")).value();
    ASSERT_TRUE(file.append(day, now, records::TaskDone{"before"}));
    const std::vector<NewEntry> impossible{
        {day, now, records::TaskDone{"x"}, 99},
        {day, now, records::TaskDone{"\xFF"}, {}},
        {units::Day(units::Days(200000)), now, records::TaskDone{"x"}, {}}};
    for (const NewEntry& bad : impossible) {
        const auto refused = file.append_all({{day, now, records::TaskDone{"good"}, {}}, bad});
        ASSERT_FALSE(refused);
        EXPECT_EQ(refused.error().where, "entry 2 of 2");
        EXPECT_EQ(file.journal().value().size(), 1U);
    }
    EXPECT_TRUE(file.append_all({}).value().empty());
    EXPECT_EQ(file.append_all({{day, now, records::TaskDone{"after"}, {}}}).value().size(), 1U);
    EXPECT_EQ(file.journal().value().size(), 2U);
}

TEST_F(Files, an_entry_larger_than_the_file_can_hold_is_refused_as_such) {
    auto file = CollectionFile::create(at("c")).value();
    const auto refused = file.append(day, now, records::TaskDone{std::string(largest_body, 'x')});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::unsupported);
    EXPECT_EQ(refused.error().limit, "63 MB");
    EXPECT_TRUE(file.append(day, now, records::TaskDone{std::string(largest_body - 100, 'x')}));
    EXPECT_EQ(file.journal().value().size(), 1U);
}

// STRICT tables, CHECK and triggers: sqlite.org/stricttables.html, lang_createtable.html,
// lang_createtrigger.html.
TEST_F(Files, whoever_opens_the_file_can_only_append) {
    {
        auto file = CollectionFile::create(at("c")).value();
        ASSERT_TRUE(file.append(day, now, records::TaskDone{"one"}));
        ASSERT_TRUE(file.append(day, now, records::TaskDone{"two"}, 1));
    }
    const std::string append_only = "append-only";
    EXPECT_NE(refusal_of(at("c"), "UPDATE fact SET day = '2020-01-01'").find(append_only), std::string::npos);
    EXPECT_NE(refusal_of(at("c"), "DELETE FROM fact").find(append_only), std::string::npos);
    EXPECT_NE(refusal_of(at("c"),
                         "INSERT OR REPLACE INTO fact (id, day, recorded_at, kind, body, corrects) VALUES "
                         "(1, '2020-01-01', '', 'x', '{}', NULL)")
                  .find(append_only),
              std::string::npos);
    EXPECT_NE(refusal_of(at("c"),
                         "REPLACE INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (9, "
                         "'2020-01-01', '', 'x', '{}', 1)")
                  .find("already corrected"),
              std::string::npos);
    for (const char* const sql : {"INSERT INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (9, "
                                  "'1 May', '', 'x', '{}', NULL)",
                                  "INSERT INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (9, "
                                  "'2020-01-01', '', 'x', '{', NULL)",
                                  "INSERT INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (9, "
                                  "'2020-01-01', '', 'x', x'00', NULL)",
                                  "INSERT INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (9, "
                                  "'2020-01-01', NULL, 'x', '{}', NULL)",
                                  "INSERT INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (9, "
                                  "'2020-01-01', '', 'withdrawn', '{}', NULL)",
                                  "INSERT INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (9, "
                                  "'2020-01-01', '', 'x', '{}', 9)"}) {
        EXPECT_NE(refusal_of(at("c"), sql), "") << sql;
    }
    EXPECT_EQ(CollectionFile::open(at("c")).value().journal().value().size(), 2U);
}

TEST_F(Files, numbers_are_not_used_again_after_a_failure) {
    auto file = CollectionFile::create(at("c")).value();
    ASSERT_TRUE(file.append(day, now, records::TaskDone{"one"}));
    ASSERT_FALSE(file.append(day, now, records::TaskDone{"two"}, 99));
    EXPECT_GE(file.append(day, now, records::TaskDone{"three"}).value(), 2);
}

TEST_F(Files, two_programs_share_a_file) {
    auto one = CollectionFile::create(at("c")).value();
    auto two = CollectionFile::open(at("c")).value();
    ASSERT_TRUE(one.append(day, now, records::TaskDone{"from one"}));
    ASSERT_TRUE(two.append(day, now, records::TaskDone{"from two"}));
    EXPECT_EQ(one.journal().value().size(), 2U);
    EXPECT_EQ(two.journal().value().size(), 2U);
}

/// The journal of a plain copy of that one file, and of nothing that stands beside it.
std::vector<Entry> journal_of_a_plain_copy(const std::filesystem::path& file,
                                           const std::filesystem::path& copy) {
    std::filesystem::copy_file(file, copy, std::filesystem::copy_options::overwrite_existing);
    auto opened = CollectionFile::open(copy);
    if (!opened) throw std::runtime_error(opened.error().message());
    return opened->journal().value();
}

TEST_F(Files, a_plain_copy_of_the_one_file_is_whole_while_programs_have_it_open) {
    auto one = CollectionFile::create(at("c")).value();
    auto two = CollectionFile::open(at("c")).value();
    ASSERT_TRUE(two.journal());
    ASSERT_TRUE(one.append(day, now, records::TaskDone{"from one"}));
    EXPECT_EQ(journal_of_a_plain_copy(at("c"), at("copy")), one.journal().value());
    ASSERT_TRUE(
        two.append_all({{day, now, records::TaskDone{"a"}, {}}, {day, now, records::TaskDone{"b"}, {}}}));
    EXPECT_EQ(journal_of_a_plain_copy(at("c"), at("copy")), two.journal().value());
    ASSERT_TRUE(one.undivided([&]() -> base::Result<void> {
        EXPECT_TRUE(one.append_all({{day, now, records::TaskDone{"c"}, {}, "request-1"}}));
        return one.keep_answer("request-1", {"asked", "{}"});
    }));
    const auto copied = journal_of_a_plain_copy(at("c"), at("copy"));
    EXPECT_EQ(copied, two.journal().value());
    EXPECT_EQ(copied.size(), 4U);
    EXPECT_EQ(CollectionFile::open(at("copy"))->entries_of("request-1").value(), std::vector<FactId>{4});
}

// Earlier versions wrote a log beside the file; one of them may have the file open still.
TEST_F(Files, a_file_with_a_log_is_made_whole_at_each_write_and_leaves_its_log_once_it_can) {
    CollectionFile::create(at("c")).value();
    auto earlier = std::make_unique<SQLite::Database>(at("c").string(), SQLite::OPEN_READWRITE);
    ASSERT_EQ(earlier->execAndGet("PRAGMA journal_mode = WAL").getString(), "wal");
    const auto write = [&] {
        earlier->exec(
            "INSERT INTO fact (day, recorded_at, kind, body) VALUES "
            "('2026-02-01', '2026-02-01T08:00:00Z', 'task-done', '{\"task\":\"earlier\"}')");
    };
    write();
    auto file = CollectionFile::open(at("c")).value();
    ASSERT_TRUE(file.append(day, now, records::TaskDone{"new"}));
    EXPECT_EQ(journal_of_a_plain_copy(at("c"), at("copy")), file.journal().value());
    write();
    earlier.reset();
    ASSERT_TRUE(file.append(day, now, records::TaskDone{"newer"}));
    EXPECT_EQ(file.journal().value().size(), 4U);
    EXPECT_EQ(journal_of_a_plain_copy(at("c"), at("copy")), file.journal().value());
    SQLite::Database raw(at("c").string());
    EXPECT_EQ(raw.execAndGet("PRAGMA journal_mode").getString(), "delete");
}

TEST_F(Files, an_object_can_be_moved) {
    auto first = CollectionFile::create(at("c")).value();
    CollectionFile second = std::move(first);
    ASSERT_TRUE(second.append(day, now, records::TaskDone{"one"}));
    second = CollectionFile::open(at("c")).value();
    EXPECT_EQ(second.journal().value().size(), 1U);
    EXPECT_EQ(second.path(), at("c").string());
}

}  // namespace
}  // namespace mitefall::store
