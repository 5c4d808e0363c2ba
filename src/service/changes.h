#pragma once

#include <vector>

#include "base/vocabulary.h"
#include "plan/schedule.h"
#include "records/facts.h"
#include "service/situation.h"
#include "statement/statement.h"

// What could be changed about a collection so that more of what the plan asks is permitted, or does more.
namespace mitefall::service {

namespace changes {

#define STATEMENTS "service/changes.def"
#include "statement/kinds.def"

}  // namespace changes

/// Who decides on a change.
enum class Whose { keeper, veterinarian };
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(Whose) {
    using enum Whose;
    return base::vocabulary("one to decide", keeper, "keeper", veterinarian, "veterinarian");
}

/// One change, as the facts that would be on record if it were made today: nothing of it is recorded.
struct Change {
    statement::Statement what;  ///< changes.def
    Whose whose = Whose::keeper;
    std::vector<records::Fact> facts{};  ///< all of today
    int spare_tubs = 0;                  ///< clean tubs at hand in each round; 0: as before
    bool touches_mites = false;          ///< where they are or what kills them, not only what is permitted
    std::set<std::string> sources{};     ///< keys of published trials of what is done; see evidence
};

/// Everything that stands in the way of the course today and can be changed: animals of no known weight,
/// others in the same air or enclosure, wood, too few tubs, what only a veterinarian may direct. None is
/// empty. `setting`: of the situation. `with_wood`: the same with what spare tubs could empty.
[[nodiscard]] std::vector<Change> possible_changes(const plan::Setting& setting,
                                                   const plan::Setting& with_wood);

/// Everybody out of an enclosure, into a clean tub beside it; nothing where nobody lives there. For supposing
/// only: no verdict is asked.
[[nodiscard]] Change emptying(const records::Collection& today, const records::EnclosureId& enclosure);

/// All that the keeper can do alone, at once. Fewer than two of them: nothing.
[[nodiscard]] std::optional<Change> all_of_the_keepers(const std::vector<Change>& changes);

/// The situation if it were made.
[[nodiscard]] std::shared_ptr<const Situation> with(const Change& change, const Situation& situation);

}  // namespace mitefall::service
