#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "plan/schedule.h"
#include "safety/wet_book.h"

namespace mitefall::plan {

/// Fits one assignment to the verdicts (schedule.h tells how). Keeps references.
class Fitter {
  public:
    Fitter(const Assignment& assignment, const Setting& setting, PermitBook& permits);
    [[nodiscard]] Schedule fit();

  private:
    void fit_round(std::size_t number);
    void close_round();
    [[nodiscard]] Burden counted_burden();
    void add(records::TaskPart part, const safety::PermittedTreatment& treatment);
    void leave_out(const records::EnclosureId& enclosure, const records::AnimalId& animal,
                   records::Method method, const safety::Reason& why);
    [[nodiscard]] bool is_settled(records::TaskPart part, const std::string& name) const;

    void treat_room(const records::RoomId& room);
    void treat_place(const records::EnclosureId& enclosure);
    void empty(const records::EmptiedWood& wood);
    [[nodiscard]] bool is_bare(EnclosureNumber place) const;
    void treat_enclosure(EnclosureNumber place);
    [[nodiscard]] bool is_given_a_tub(EnclosureNumber place) const;
    bool renew(EnclosureNumber place, records::TaskPart part, records::Method method);
    bool try_to_renew(EnclosureNumber place, records::TaskPart part, const safety::Request& request);
    void spray_bedding(EnclosureNumber place);
    bool try_on_bedding(EnclosureNumber place, const safety::Request& request);
    void treat_animal(EnclosureNumber place, AnimalNumber animal);
    void clear_head(EnclosureNumber place, AnimalNumber animal);
    bool try_on_animal(EnclosureNumber place, AnimalNumber animal, const safety::Request& request);
    void propose(AnimalNumber animal, const safety::Request& request);

    // What dish and paper allow.
    [[nodiscard]] safety::WetBook& water_of(EnclosureNumber place);
    [[nodiscard]] safety::Wetting wetting_of(EnclosureNumber place, const safety::Request& request);
    bool enter_spray(EnclosureNumber place, const records::AnimalId& animal, const safety::Request& request);
    [[nodiscard]] safety::Request when_dish_is_out(EnclosureNumber place, safety::Request request);
    void list_damp_paper();

    [[nodiscard]] std::optional<units::Day> own_date(EnclosureNumber place,
                                                     const std::vector<AnimalNumber>& animals,
                                                     safety::Request request);

    /// Where the animals of an enclosure live once wood was emptied.
    [[nodiscard]] PermitBook& permits_of(EnclosureNumber place) const {
        return *permits_of_[index_of(place)];
    }
    [[nodiscard]] const std::vector<AnimalNumber>& animals_in(EnclosureNumber place) const {
        return permits_of(place).roster().inside(place);
    }
    [[nodiscard]] const records::EnclosureId& id_of(EnclosureNumber place) const {
        return roster_.enclosure(place).id;
    }
    [[nodiscard]] units::Day today() const { return round_.day; }

    const Assignment& assignment_;
    const Setting& setting_;
    PermitBook& permits_;
    const Roster& roster_;
    Schedule schedule_;
    Round round_;  ///< being filled
    std::map<units::Day, std::vector<ScheduledTreatment>> own_dates_;
    units::Day last_own_date_;
    ProposedCourse proposed_;
    std::vector<std::optional<safety::WetBook>> water_;  ///< by enclosure
    std::vector<PermitBook*> permits_of_;                ///< by enclosure
    std::set<records::EnclosureId> emptied_now_;         ///< wood, of the round
};

}  // namespace mitefall::plan
