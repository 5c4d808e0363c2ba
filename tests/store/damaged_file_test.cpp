#include <SQLiteCpp/SQLiteCpp.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "scratch.h"
#include "store/collection_file.h"
#include "store/schema.h"

namespace mitefall::store {
namespace {

using base::ErrorKind;

const units::Day day{std::chrono::year(2026) / 3 / 1};
const std::string now = "2026-03-01T21:04:05Z";

class Damage : public Scratch {
  protected:
    void make_collection(const std::string& name, int entries) const {
        auto file = CollectionFile::create(at(name)).value();
        const NewEntry entry{day, now, records::TaskDone{std::string(200, 'x')}, {}};
        ASSERT_TRUE(file.append_all(std::vector<NewEntry>(static_cast<std::size_t>(entries), entry)));
    }

    static void run_sql(const std::filesystem::path& path, const std::string& sql) {
        SQLite::Database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec(sql);
    }

    /// What stops the file from being opened and read to its end.
    static std::optional<ErrorKind> fault_in(const std::filesystem::path& path) {
        auto file = CollectionFile::open(path);
        if (!file) return file.error().kind;
        const auto journal = file->journal();
        if (!journal) return journal.error().kind;
        return std::nullopt;
    }

    static void expect_refused(const std::filesystem::path& path, ErrorKind kind) {
        const auto opened = CollectionFile::open(path);
        ASSERT_FALSE(opened);
        EXPECT_EQ(opened.error().kind, kind) << opened.error().message();
        EXPECT_FALSE(opened.error().remedy.empty());
    }
};

TEST_F(Damage, no_such_file_or_folder) {
    expect_refused(at("none"), ErrorKind::not_found);
    expect_refused(at("none/none"), ErrorKind::not_found);
    EXPECT_FALSE(std::filesystem::exists(at("none"))) << "looking must not make a file";
    EXPECT_EQ(CollectionFile::create(at("none/c")).error().kind, ErrorKind::not_found);
}

TEST_F(Damage, not_a_database) {
    write_bytes(at("letter"), std::string(5000, 'a'));
    expect_refused(at("letter"), ErrorKind::damaged);
    write_bytes(at("short"), "hello");
    expect_refused(at("short"), ErrorKind::damaged);
    write_bytes(at("empty"), "");
    expect_refused(at("empty"), ErrorKind::damaged);
    expect_refused(at(""), ErrorKind::damaged);
    EXPECT_EQ(read_bytes(at("letter")), std::string(5000, 'a'));
}

TEST_F(Damage, somebody_elses_database) {
    run_sql(at("other"), "CREATE TABLE fact (id INTEGER PRIMARY KEY); PRAGMA user_version = 1");
    const std::string before = read_bytes(at("other"));
    expect_refused(at("other"), ErrorKind::damaged);
    EXPECT_EQ(read_bytes(at("other")), before);
}

TEST_F(Damage, a_newer_version_is_left_alone) {
    make_collection("new", 1);
    run_sql(at("new"), "PRAGMA user_version = 7; CREATE TABLE future (x)");
    const auto opened = CollectionFile::open(at("new"));
    ASSERT_FALSE(opened);
    EXPECT_EQ(opened.error().kind, ErrorKind::unsupported);
    EXPECT_EQ(opened.error().value, "file version 7");
    EXPECT_EQ(opened.error().limit,
              "this program reads up to file version " + std::to_string(newest_version));
    SQLite::Database raw(at("new").string());
    EXPECT_EQ(raw.execAndGet("PRAGMA user_version").getInt(), 7);
}

TEST_F(Damage, an_older_version_is_brought_up_to_date) {
    run_sql(at("old"), "PRAGMA application_id = " + std::to_string(application_id));
    auto file = CollectionFile::open(at("old"));
    ASSERT_TRUE(file) << file.error().message();
    EXPECT_TRUE(file->append(day, now, records::TaskDone{"one"}));
    SQLite::Database raw(at("old").string());
    EXPECT_EQ(raw.execAndGet("PRAGMA user_version").getInt(), newest_version);
}

TEST_F(Damage, a_migration_that_fails_changes_nothing) {
    run_sql(at("odd"), "CREATE TABLE fact (mine); PRAGMA application_id = " + std::to_string(application_id));
    expect_refused(at("odd"), ErrorKind::damaged);
    SQLite::Database raw(at("odd").string());
    EXPECT_EQ(raw.execAndGet("PRAGMA user_version").getInt(), 0);
    EXPECT_EQ(raw.execAndGet("SELECT count(*) FROM sqlite_schema").getInt(), 1);
}

TEST_F(Damage, our_header_without_our_tables) {
    run_sql(at("bare"), "PRAGMA user_version = 1; PRAGMA application_id = " + std::to_string(application_id));
    expect_refused(at("bare"), ErrorKind::damaged);
}

TEST_F(Damage, a_file_cut_short_anywhere_is_an_error_not_a_crash) {
    make_collection("whole", 200);
    const std::string bytes = read_bytes(at("whole"));
    ASSERT_GT(bytes.size(), 20000U);
    for (std::size_t kept = 1; kept < bytes.size(); kept += 1371) {
        SCOPED_TRACE(kept);
        write_bytes(at("cut"), bytes.substr(0, kept));
        EXPECT_EQ(fault_in(at("cut")), ErrorKind::damaged);
    }
}

TEST_F(Damage, overwritten_pages_never_crash) {
    make_collection("whole", 200);
    const std::string bytes = read_bytes(at("whole"));
    int refused = 0;
    for (std::size_t from = 100; from + 3000 < bytes.size(); from += 2777) {
        std::string damaged = bytes;
        damaged.replace(from, 3000, 3000, '\x5A');
        write_bytes(at("hit"), damaged);
        const auto fault = fault_in(at("hit"));
        if (!fault) continue;
        EXPECT_EQ(*fault, ErrorKind::damaged);
        ++refused;
    }
    EXPECT_GE(refused, 5);
}

TEST_F(Damage, a_row_that_cannot_be_read_is_named) {
    make_collection("c", 2);
    run_sql(
        at("c"),
        R"(INSERT INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (3, '2026-03-01', '', 'weighed', '{"animal":"x","mass_g":"heavy"}', NULL))");
    auto file = CollectionFile::open(at("c")).value();
    const auto journal = file.journal();
    ASSERT_FALSE(journal);
    EXPECT_EQ(journal.error().kind, ErrorKind::damaged);
    EXPECT_EQ(journal.error().where, "fact 3, mass_g");
    const Rows rows = file.rows().value();
    EXPECT_EQ(rows.entries.size(), 3U) << "the others can be read";
    ASSERT_EQ(rows.unreadable.size(), 1U);
    EXPECT_EQ(rows.unreadable.front().first, 3);
    run_sql(at("c"),
            "INSERT INTO fact (day, recorded_at, kind, body) VALUES ('2026-02-31', '', 'task-done', '{}')");
    EXPECT_EQ(file.rows().value().unreadable.back().second.where, "fact 4, day");
}

TEST_F(Damage, a_file_with_other_tables_is_refused_before_anything_in_it_runs) {
    for (const char* const sql :
         {"CREATE TABLE more (x)", "DROP TRIGGER fact_is_not_changed", "DROP TABLE request",
          "CREATE VIEW more AS WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) SELECT * FROM "
          "n",
          "CREATE TRIGGER more AFTER INSERT ON fact BEGIN SELECT RAISE(IGNORE); END",
          "CREATE INDEX more ON fact(hex(body))"}) {
        SCOPED_TRACE(sql);
        make_collection("c", 1);
        run_sql(at("c"), sql);
        const auto opened = CollectionFile::open(at("c"));
        ASSERT_FALSE(opened);
        EXPECT_EQ(opened.error().kind, ErrorKind::damaged);
        EXPECT_NE(opened.error().limit.find("exactly the tables"), std::string::npos);
        std::filesystem::remove(at("c"));
    }
}

TEST_F(Damage, a_file_that_is_no_longer_the_one_that_was_opened) {
    make_collection("c", 1);
    make_collection("other", 2);
    auto file = CollectionFile::open(at("c")).value();
    const auto expect_gone = [&](const char* what) {
        const auto refused = file.append(day, now, records::TaskDone{"lost"});
        ASSERT_FALSE(refused) << what;
        EXPECT_EQ(refused.error().what, "the collection is no longer the file that was opened") << what;
        EXPECT_FALSE(file.rows()) << what;
        EXPECT_FALSE(file.copy()) << what;
        EXPECT_FALSE(file.find_answer("x")) << what;
        EXPECT_FALSE(file.keep_answer("x", {"asked", "null"})) << what;
    };
    std::filesystem::rename(at("c"), at("aside"));
    expect_gone("moved");
    std::filesystem::copy_file(at("other"), at("c"));
    expect_gone("another in its place");
    EXPECT_EQ(CollectionFile::open(at("c"))->journal()->size(), 2U) << "what lies there was not written to";
    std::filesystem::remove(at("c"));
    std::filesystem::rename(at("aside"), at("c"));
    EXPECT_TRUE(file.append(day, now, records::TaskDone{"back"}));
    ASSERT_EQ(file.journal()->size(), 2U);
    std::filesystem::copy_file(at("other"), at("c"), std::filesystem::copy_options::overwrite_existing);
    expect_gone("another written over it");
}

TEST_F(Damage, a_collection_and_its_copies_are_for_their_owner_only) {
    const mode_t before = umask(0);
    make_collection("c", 1);
    ASSERT_TRUE(CollectionFile::open(at("c"))->copy_to(at("copy")));
    umask(before);
    for (const char* const name : {"c", "copy"}) {
        struct stat found {};
        ASSERT_EQ(stat(at(name).c_str(), &found), 0);
        EXPECT_EQ(found.st_mode & 0777U, 0600U) << name;
    }
    write_bytes(at("d.making"), "somebody's own");
    make_collection("d", 1);
    EXPECT_EQ(read_bytes(at("d.making")), "somebody's own");
    write_bytes(at("bytes"), CollectionFile::open(at("c"))->copy().value());
    EXPECT_EQ(CollectionFile::open(at("bytes"))->journal()->size(), 1U);
}

TEST_F(Damage, another_program_holding_the_file_is_an_error_not_a_hang) {
    make_collection("c", 1);
    auto file = CollectionFile::open(at("c")).value();
    SQLite::Database other(at("c").string(), SQLite::OPEN_READWRITE);
    other.exec("BEGIN EXCLUSIVE");
    const auto refused = file.append(day, now, records::TaskDone{"one"});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::system);
    EXPECT_NE(refused.error().what.find("another program"), std::string::npos);
    const auto unread = file.journal();
    ASSERT_FALSE(unread) << "nothing is read while another program is putting its work into the file";
    EXPECT_EQ(unread.error().kind, ErrorKind::system);
    other.exec("ROLLBACK");
    EXPECT_EQ(file.journal().value().size(), 1U);
    EXPECT_TRUE(file.append(day, now, records::TaskDone{"one"}));
}

/// Runs `child` in a process of its own; true if it returned true.
template <class Child>
bool in_child(Child child) {
    const pid_t pid = fork();
    if (pid == 0) _exit(child() ? 0 : 1);
    int status = 0;
    waitpid(pid, &status, 0);
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

/// Permissions do not hold for root, so a child gives its rights up first (65534: nobody).
bool drop_rights() { return geteuid() != 0 || setuid(65534) == 0; }

TEST_F(Damage, a_folder_that_cannot_be_written) {
    make_collection("c", 1);
    ASSERT_EQ(chmod(at("c").c_str(), 0444), 0);
    ASSERT_EQ(chmod(at("").c_str(), 0555), 0);
    EXPECT_TRUE(in_child([&] {
        if (!drop_rights()) return false;
        const auto made = CollectionFile::create(at("d"));
        return !made && made.error().kind == ErrorKind::system && !made.error().remedy.empty();
    }));
    EXPECT_TRUE(in_child([&] {
        if (!drop_rights()) return false;
        auto opened = CollectionFile::open(at("c"));
        if (!opened || opened->journal().value().size() != 1) return false;
        const auto refused = opened->append(day, now, records::TaskDone{"one"});
        return !refused && refused.error().kind == ErrorKind::system && !refused.error().remedy.empty();
    })) << "it needs no file beside it, so it can be read";
    ASSERT_EQ(chmod(at("").c_str(), 0755), 0);
}

// As it may lie in a folder of copies: of an older version, to be read and not to be written.
TEST_F(Damage, an_older_file_that_may_only_be_read_is_read_and_left_as_it_is) {
    make_collection("c", 2);
    run_sql(at("c"),
            "DROP INDEX fact_of_request; PRAGMA foreign_keys = OFF; ALTER TABLE fact DROP COLUMN request; "
            "DROP TABLE request; PRAGMA user_version = 1; PRAGMA wal_checkpoint(TRUNCATE)");
    const std::string before = read_bytes(at("c"));
    ASSERT_EQ(chmod(at("c").c_str(), 0444), 0);
    ASSERT_EQ(chmod(at("").c_str(), 0777), 0);
    EXPECT_TRUE(in_child([&] {
        if (!drop_rights()) return false;
        auto file = CollectionFile::open(at("c"));
        const auto journal = file ? file->journal() : base::fail(file.error());
        if (!journal || journal->size() != 2 || file->request_of(1) != "") return false;
        const auto refused = file->append(day, now, records::TaskDone{"one"});
        return !refused && refused.error().kind == ErrorKind::system && !refused.error().remedy.empty();
    }));
    EXPECT_EQ(read_bytes(at("c")), before);
    EXPECT_TRUE(CollectionFile::open(at("c"))) << "whoever may write it brings it up to date";
}

// The child appends batch after batch and reports each one that is on disk; it is killed at some moment in
// between.
TEST_F(Damage, killed_while_writing_nothing_is_half_written) {
    constexpr std::size_t batch = 400;
    make_collection("c", static_cast<int>(batch));
    std::size_t before = batch;
    for (int round = 1; round <= 6; ++round) {
        int reports[2];
        ASSERT_EQ(pipe(reports), 0);
        const pid_t pid = fork();
        if (pid == 0) {
            auto file = CollectionFile::open(at("c")).value();
            const std::vector<NewEntry> entries(batch,
                                                {day, now, records::TaskDone{std::string(300, 'y')}, {}});
            while (file.append_all(entries) && write(reports[1], "b", 1) == 1) continue;
            _exit(1);
        }
        close(reports[1]);
        std::size_t reported = 0;
        for (char byte = 0;
             reported < 1 + static_cast<std::size_t>(round % 3) && read(reports[0], &byte, 1) == 1;)
            ++reported;
        usleep(static_cast<useconds_t>(round * 700));
        kill(pid, SIGKILL);
        int status = 0;
        waitpid(pid, &status, 0);
        ASSERT_TRUE(WIFSIGNALED(status));
        close(reports[0]);

        auto file = CollectionFile::open(at("c"));
        ASSERT_TRUE(file) << file.error().message();
        const std::size_t count = file->journal().value().size();
        EXPECT_EQ(count % batch, 0U);
        EXPECT_GE(count, before + reported * batch);
        before = count;
    }
    SQLite::Database raw(at("c").string());
    EXPECT_EQ(raw.execAndGet("PRAGMA integrity_check").getString(), "ok");
}

}  // namespace
}  // namespace mitefall::store
