#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <string>

#include "store/collection_file.h"
#include "store/fact_json.h"
#include "store/schema.h"

namespace mitefall::store {

/// An open file with its prepared statements. Throws SQLite::Exception.
struct CollectionFile::Connection {
    Connection(SQLite::Database opened, std::string at);

    /// Fails on what the file cannot hold; nothing is written then.
    base::Result<records::FactId> insert(const NewEntry& entry);
    base::Result<std::vector<records::Entry>> read(records::FactId after);
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
        ~Held() { connection_.is_held = false; }
        Held(const Held&) = delete;
        Held& operator=(const Held&) = delete;

      private:
        Connection& connection_;
    };

    std::string path;
    SQLite::Database database;
    bool is_whole;            ///< nothing of it can stand in a log beside the file
    bool keeps_requests;      ///< false for an older file that may only be read
    bool is_held = false;     ///< undivided work goes on
    bool has_failed = false;  ///< a part of it did
    SQLite::Statement insert_fact;
    SQLite::Statement select_facts;
};

constexpr int busy_timeout_ms = 5000;

}  // namespace mitefall::store
