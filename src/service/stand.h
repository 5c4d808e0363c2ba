#pragma once

#include <map>
#include <optional>
#include <set>
#include <vector>

#include "clearance/answers.h"
#include "plan/schedule.h"
#include "service/keeper.h"

namespace mitefall::service {

/// A part of a longer piece of work, for its progress.
[[nodiscard]] inline clearance::Progress part_of(const clearance::Progress& whole, double begin, double end) {
    if (!whole) return {};
    return [=](double share) { return whole(begin + share * (end - begin)); };
}

/// The keeper's records as a standing, with everything it refers to. `setting`: at the strength in use; it
/// outlives the stand.
class Stand {
  public:
    explicit Stand(const plan::Setting& setting);

    /// `believed` must outlive the answer.
    [[nodiscard]] clearance::Standing with(const Believed& believed) const {
        return {&scenario_, &believed.ensemble, &believed.belief, known_.from, today(), 0};
    }

    [[nodiscard]] double today() const { return known_.time_of(setting_.today); }
    [[nodiscard]] std::optional<units::Day> last_sighting() const;  ///< none: no mite was seen lately
    [[nodiscard]] units::Day origin() const { return known_.origin; }
    [[nodiscard]] bool course_goes_on() const { return course_goes_on_; }
    [[nodiscard]] const std::vector<clearance::PlaceGroup>& groups() const { return groups_; }

    [[nodiscard]] std::vector<records::EnclosureId> enclosures_in(const clearance::PlaceGroup& group) const;
    [[nodiscard]] records::RoomId room_in(const clearance::PlaceGroup& group) const;
    [[nodiscard]] scenario::PlaceIndex place_of(const records::EnclosureId& id) const {
        return known_.enclosures.at(id);
    }
    /// Where mites were seen, what the course treats, and every other exposed enclosure. With nothing seen:
    /// where something may have come in, or everywhere.
    [[nodiscard]] std::vector<records::EnclosureId> watched() const;

  private:
    /// Where new animals live and contact with the outside may have reached; everything where there is
    /// neither.
    [[nodiscard]] std::set<records::EnclosureId> ways_in() const;

    const plan::Setting& setting_;
    const scenario::RecordedCase& known_;
    scenario::Scenario scenario_;
    std::vector<clearance::PlaceGroup> groups_;
    std::map<scenario::PlaceIndex, records::EnclosureId> enclosure_at_;
    std::map<scenario::PlaceIndex, records::RoomId> room_at_;
    bool course_goes_on_ = false;
};

}  // namespace mitefall::service
