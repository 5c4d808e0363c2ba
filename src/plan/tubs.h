#pragma once

#include <map>
#include <vector>

#include "plan/schedule.h"

namespace mitefall::plan {

/// The enclosures of the widest scope whose animals may go into a clean tub today, wood for good: those
/// nearest to the mites first, of these first whose animals may not be sprayed.
[[nodiscard]] std::vector<records::EnclosureId> places_for_tubs(Scope widest, const Setting& setting,
                                                                PermitBook& permits);

/// Spare tubs a course takes: in each round the clean one, and the one of each wood.
[[nodiscard]] std::size_t tubs_of(const records::CourseChoices& choices);
/// Those enclosures get a tub and no others: wood is emptied once, the rest get a clean one in each round.
void give_tubs(const std::vector<records::EnclosureId>& enclosures, const Setting& setting,
               records::CourseChoices& choices);
/// Whose animals get one.
[[nodiscard]] std::vector<records::EnclosureId> given_tubs(const records::CourseChoices& choices);

/// Where the spare tubs go, by scope.
class TubPlaces {
  public:
    /// `by_worth`: where a tub helps most comes first.
    TubPlaces(const std::vector<records::EnclosureId>& by_worth, const std::vector<Scope>& scopes,
              const Setting& setting);

    /// As many as there are, and no more than are spare; ascending by name.
    [[nodiscard]] std::vector<records::EnclosureId> first(Scope scope, std::size_t number) const;
    [[nodiscard]] std::size_t most(Scope scope) const;
    [[nodiscard]] bool none() const { return by_scope_.empty(); }

  private:
    std::map<Scope, std::vector<records::EnclosureId>> by_scope_;
};

}  // namespace mitefall::plan
