#pragma once

#include <memory>
#include <optional>
#include <set>
#include <vector>

#include "plan/permit_book.h"
#include "records/course.h"

// A wooden enclosure emptied for the course: once, and everybody in it lives in a treatment tub from then on.
namespace mitefall::plan {

/// A collection in which everybody of the enclosure lives in its tub, and what is permitted there. Made for
/// asking: nothing is recorded.
class Emptied {
  public:
    /// The tub is on record, and empty. `only`: the enclosures permits are asked about; nothing: all.
    Emptied(const safety::Case& with, const records::EmptiedWood& wood,
            const std::optional<std::set<records::EnclosureId>>& only);
    Emptied(const Emptied&) = delete;
    Emptied& operator=(const Emptied&) = delete;

    [[nodiscard]] const safety::Case& with() const { return with_; }
    [[nodiscard]] PermitBook& permits() { return *permits_; }

  private:
    records::Collection collection_;
    safety::Case with_;
    std::unique_ptr<PermitBook> permits_;
};

/// Whether somebody lives in the enclosure and its tub stands empty: then it can be emptied.
[[nodiscard]] bool can_be_emptied(const records::EmptiedWood& wood, const safety::Case& with);

/// The wood of these that is this enclosure, or whose tub it is; nullptr if there is none.
[[nodiscard]] const records::EmptiedWood* wood_of(const std::vector<records::EmptiedWood>& emptied,
                                                  const records::EnclosureId& enclosure);

[[nodiscard]] bool is_tub_for_wood(const std::vector<records::EmptiedWood>& emptied,
                                   const records::EnclosureId& enclosure);

}  // namespace mitefall::plan
