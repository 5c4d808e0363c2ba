#pragma once

#include <map>
#include <vector>

#include "plan/schedule.h"

namespace mitefall::plan {

/// The enclosures of the widest scope whose animals may go into a clean tub today: those nearest to the mites
/// first, of these first whose animals may not be sprayed.
[[nodiscard]] std::vector<records::EnclosureId> places_for_tubs(Scope widest, const Setting& setting,
                                                                PermitBook& permits);

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
