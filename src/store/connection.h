#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <string>

#include "store/collection_file.h"
#include "store/fact_json.h"
#include "store/schema.h"

namespace mitefall::store {

/// Tells one file from another for as long as it is held open.
struct FileNumber {
    std::uint64_t device = 0;
    std::uint64_t inode = 0;
    friend bool operator==(const FileNumber&, const FileNumber&) = default;
};

/// An open file with its prepared statements. Throws SQLite::Exception.
struct CollectionFile::Connection {
    /// The last row that was read, to notice another collection written over this one.
    struct Known {
        records::FactId id = before_all;
        std::string text;
    };

    Connection(SQLite::Database opened, std::unique_ptr<Steps> allowed, std::string at);

    /// Fails on what the file cannot hold; nothing is written then.
    base::Result<records::FactId> insert(const NewEntry& entry);
    Rows read(records::FactId after);
    /// Throws Gone where the file at the path is no longer the one that was opened. To be called before
    /// anything is asked of it: also begins to count the steps of SQLite anew.
    void see_that_it_is_there();
    bool holds(const Known& row);
    std::optional<Answered> find_answer(const std::string& request);

    /// To be called after each write. Does nothing within undivided work.
    void see_that_it_is_whole();

    /// The time that undivided work takes.
    class Held {
      public:
        explicit Held(Connection& connection) : connection_(connection) {
            connection_.is_held = true;
            connection_.has_failed = false;
        }
        ~Held() {
            connection_.is_held = false;
            if (!is_kept_) connection_.last_row = std::move(before_);
        }
        /// What was read of the work is in the file now.
        void keep() { is_kept_ = true; }
        Held(const Held&) = delete;
        Held& operator=(const Held&) = delete;

      private:
        Connection& connection_;
        Known before_ = connection_.last_row;
        bool is_kept_ = false;
    };

    std::string path;
    SQLite::Database database;
    std::unique_ptr<Steps> steps;
    FileNumber number;  ///< of the file at the path when it was opened
    Known last_row;
    bool is_whole;            ///< nothing of it can stand in a log beside the file
    bool keeps_requests;      ///< false for an older file that may only be read
    bool is_held = false;     ///< undivided work goes on
    bool has_failed = false;  ///< a part of it did
    SQLite::Statement insert_fact;
    SQLite::Statement select_facts;
    SQLite::Statement select_row;
};

constexpr int busy_timeout_ms = 5000;

}  // namespace mitefall::store
