#pragma once

#include <filesystem>
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
};

/// One collection: one SQLite file the keeper can copy. The one door to SQLite; nothing it throws leaves
/// here. Facts are appended as given: whether they fit the collection is asked beforehand
/// (records::check_fact). One object is for one thread at a time; any number of objects, in any number of
/// programs, may share the file.
class CollectionFile {
  public:
    /// A new, empty collection. Refuses a path that exists.
    [[nodiscard]] static base::Result<CollectionFile> create(const std::filesystem::path& path);

    /// A collection that exists, brought to this version of the tables.
    [[nodiscard]] static base::Result<CollectionFile> open(const std::filesystem::path& path);

    CollectionFile(CollectionFile&&) noexcept;
    CollectionFile& operator=(CollectionFile&&) noexcept;
    ~CollectionFile();

    /// On disk when this returns.
    [[nodiscard]] base::Result<records::FactId> append(units::Day day, const std::string& recorded_at,
                                                       const records::Fact& fact,
                                                       std::optional<records::FactId> corrects = {});

    /// All or none, in this order.
    [[nodiscard]] base::Result<std::vector<records::FactId>> append_all(const std::vector<NewEntry>& entries);

    /// Every entry with a number above `after`, in order of numbers.
    [[nodiscard]] base::Result<std::vector<records::Entry>> journal(records::FactId after = 0);

    /// A consistent copy in a new file, while others may go on writing (SQLite, VACUUM INTO). Error
    /// already_exists if the name is taken.
    [[nodiscard]] base::Result<void> copy_to(const std::filesystem::path& path);

    [[nodiscard]] const std::string& path() const;

  private:
    struct Connection;
    explicit CollectionFile(std::unique_ptr<Connection> connection);

    std::unique_ptr<Connection> connection_;
};

}  // namespace mitefall::store
