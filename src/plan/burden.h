#pragma once

#include <optional>
#include <vector>

#include "plan/schedule.h"

namespace mitefall::plan {

/// Adds up what a schedule asks of animals and keeper, and notes what it does.
class BurdenCounter {
  public:
    /// `roster`: of the case of the setting.
    BurdenCounter(const Setting& setting, const Roster& roster);

    void count(const Schedule& schedule, Doings& does);
    /// A drink outside an enclosure that is lived in, on each day without the dish.
    void count_dish(bool is_lived_in, int days);
    /// `animals`: how many live on the paper.
    void count_upkeep(const DampSpell& spell, std::size_t animals);

    [[nodiscard]] const Burden& burden() const { return burden_; }

  private:
    /// What the counting knows of one animal.
    struct Tally {
        std::size_t in_hand = 0;  ///< the last round in which it was counted as taken out, from 1
        int sprayed = 0;
        std::optional<units::Volume> mist{};
    };
    void count(const safety::PermittedTreatment& treatment, std::size_t round);
    [[nodiscard]] units::Volume spray_for(const safety::PermittedTreatment& treatment);
    [[nodiscard]] units::Volume mist_for(AnimalNumber animal);
    [[nodiscard]] units::Area floor_of(const records::EnclosureId& enclosure) const {
        return roster_.enclosure(roster_.number_of(enclosure)).floor;
    }

    const evidence::Tables& tables_;
    const Roster& roster_;
    evidence::SprayPerArea sprayed_;
    evidence::SprayPerArea redampened_;
    std::vector<Tally> animals_;  ///< by number
    Burden burden_;
};

}  // namespace mitefall::plan
