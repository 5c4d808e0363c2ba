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

    std::string path;
    SQLite::Database database;
    SQLite::Statement insert_fact;
    SQLite::Statement select_facts;
};

constexpr int busy_timeout_ms = 5000;

}  // namespace mitefall::store
