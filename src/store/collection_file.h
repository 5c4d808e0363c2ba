#pragma once

#include <filesystem>
#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "records/facts.h"

namespace mitefall::store {

/// A fact about to be written; the file gives it its number.
struct NewEntry {
    units::Day day;
    std::string recorded_at;  ///< UTC instant, ISO 8601
    records::Fact fact;
    std::optional<records::FactId> corrects;
    std::string request = {};  ///< key of the request it came with; empty without one
};

/// A request that was answered: what it asked, and what was said.
struct Answered {
    std::string asked;   ///< tells whether the same is asked again
    std::string answer;  ///< JSON
};

/// Entries as they stand in the file. One whose fact cannot be read is in both: its fact is then a withdrawal
/// that stands for nothing.
struct Rows {
    std::vector<records::Entry> entries;
    std::vector<std::pair<records::FactId, base::Error>> unreadable;
};

/// Below the number of any entry, also of those no program of ours wrote.
constexpr records::FactId before_all = std::numeric_limits<records::FactId>::min();

/// One collection: one SQLite file the keeper can copy, also while it is open: between two writes the file
/// alone is whole. It is made for its owner alone. Where the file was moved, removed or replaced since it was
/// opened, everything here is refused in words. Files made by other hands are read with care: what is not in
/// the tables of this program is refused before anything in it runs (decision 37). The one door to SQLite;
/// nothing it throws leaves here. Facts are appended as given: whether they fit the collection is asked in
/// the same `undivided` work (records::check_facts). One object is for one thread at a time; any number of
/// objects, in any number of programs, may share the file.
class CollectionFile {
  public:
    /// A new, empty collection. Refuses a path that exists.
    [[nodiscard]] static base::Result<CollectionFile> create(const std::filesystem::path& path);

    /// A collection that exists, brought to this version of the tables; one that may only be read is read as
    /// it is.
    [[nodiscard]] static base::Result<CollectionFile> open(const std::filesystem::path& path);

    CollectionFile(CollectionFile&&) noexcept;
    CollectionFile& operator=(CollectionFile&&) noexcept;
    ~CollectionFile();

    /// Runs `work` with no other writer in between, of this program or another: what it reads still holds
    /// when it writes (SQLite, BEGIN IMMEDIATE). What it appends is kept once it succeeds, and none of it
    /// where it fails. May be nested: a failure inside is one of the whole.
    [[nodiscard]] base::Result<void> undivided(const std::function<base::Result<void>()>& work);

    /// On disk when this returns, or when the undivided work around it has ended.
    [[nodiscard]] base::Result<records::FactId> append(units::Day day, const std::string& recorded_at,
                                                       const records::Fact& fact,
                                                       std::optional<records::FactId> corrects = {});

    /// All or none, in this order.
    [[nodiscard]] base::Result<std::vector<records::FactId>> append_all(const std::vector<NewEntry>& entries);

    /// Every entry with a number above `after`, in order of numbers. Error damaged where the rows themselves
    /// cannot be trusted.
    [[nodiscard]] base::Result<Rows> rows(records::FactId after = before_all);
    /// The same where every one of them can be read; else the error of the first that cannot.
    [[nodiscard]] base::Result<std::vector<records::Entry>> journal(records::FactId after = before_all);

    /// nullopt: no request of that key was answered.
    [[nodiscard]] base::Result<std::optional<Answered>> find_answer(const std::string& request);
    /// Kept for good; a key is used once. The entries the request wrote name it (`NewEntry::request`).
    [[nodiscard]] base::Result<void> keep_answer(const std::string& request, const Answered& answered);
    /// Those a request wrote, in order.
    [[nodiscard]] base::Result<std::vector<records::FactId>> entries_of(const std::string& request);
    /// Key of the request an entry came with; empty without one.
    [[nodiscard]] base::Result<std::string> request_of(records::FactId entry);

    /// A consistent copy in a new file, for its owner only, while others may go on writing (SQLite, VACUUM
    /// INTO). Error already_exists if the name is taken.
    [[nodiscard]] base::Result<void> copy_to(const std::filesystem::path& path);
    /// The bytes of a consistent copy; nothing is put anywhere (SQLite, sqlite3_serialize).
    [[nodiscard]] base::Result<std::string> copy();

    [[nodiscard]] const std::string& path() const;

  private:
    struct Connection;
    explicit CollectionFile(std::unique_ptr<Connection> connection);

    std::unique_ptr<Connection> connection_;
};

}  // namespace mitefall::store
