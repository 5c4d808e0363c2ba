#pragma once

#include <cstdint>
#include <vector>

#include "scenario/scenario.h"

namespace mitefall::scenario {

/// An animal of a scenario: the same number wherever it goes.
using Host = std::uint32_t;

/// Who lives where and what is in whose blood, while a scenario is written. What happens to animals is
/// appended here, so that a drug goes where its animal goes.
class Residents {
  public:
    /// Numbers the animals of the scenario as it stands after its last event. Keeps a reference.
    explicit Residents(Scenario& scenario);

    /// In order of coming. The animals of the start come first.
    [[nodiscard]] const std::vector<Host>& of(PlaceIndex place) const { return living_.at(place); }

    // Times in days, not before the last event. `host` must live at the place it leaves.
    Host join(double time, PlaceIndex place);
    void move(double time, Host host, PlaceIndex from, PlaceIndex to);
    void leave(double time, Host host, PlaceIndex place);

    /// Adds to what the animals of a place have in their blood, in the order of `of`.
    void dose(double time, PlaceIndex place, const std::vector<std::vector<Dose>>& fresh);

  private:
    [[nodiscard]] Host take_in(PlaceIndex place);
    /// Says anew what the animals of a place have in their blood, if there is anything to say.
    void tell(double time, PlaceIndex place);

    Scenario& scenario_;
    std::vector<std::vector<Host>> living_;  ///< per place
    std::vector<std::vector<Dose>> blood_;   ///< per host
    std::vector<bool> is_told_;              ///< per place: its animals' blood was told of before
};

}  // namespace mitefall::scenario
