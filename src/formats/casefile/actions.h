#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "formats/casefile/places.h"
#include "scenario/actions.h"

namespace mitefall::formats {

/// Animals of an enclosure by number: 1 is the one that has been there longest.
using AnimalNumbers = std::vector<int>;

struct CaseTreatment {
    scenario::Action action;
    AnimalNumbers animals;  ///< empty: `part` of all
};

/// Death of mites that feed, and with `days` of those that begin a meal while they last.
struct CaseDab {
    scenario::PlaceIndex place = 0;
    scenario::Dab dab;
    AnimalNumbers animals;  ///< empty: all
    std::optional<double> days;
};

/// An animal that goes elsewhere, or for good.
struct CaseMove {
    scenario::PlaceIndex from = 0;
    scenario::PlaceIndex to = scenario::nowhere;
    int animal = 0;  ///< 0: the last to come
};

/// One thing done or looked at, with the place in the file that says so.
struct CaseStep {
    double time = 0;  ///< days of the scenario
    std::variant<CaseTreatment, CaseDab, CaseMove, scenario::Happening> what;
    std::string pointer;
};

/// When the days of a case are counted from, and until when.
struct CaseClock {
    double from = 0;
    double horizon_days = 0;
};

/// Reads "actions" and "checks". `steps` ends in order of day; at one day actions first, in the order of the
/// file.
class CaseSteps {
  public:
    CaseSteps(const CasePlaces& places, CaseClock clock, Fault& fault)
        : places_(places), clock_(clock), fault_(fault) {}

    void read_actions(const Json& array, const std::string& pointer);
    void read_checks(const Json& array, const std::string& pointer);

    /// Appends the events to the scenario, following where the animals are.
    void write(scenario::Scenario& scenario, const mites::FixedParameters& fixed);

  private:
    void read_action(const Json& object, const std::string& pointer);
    [[nodiscard]] bool read_known(Fields& fields, std::string_view action);
    void read_treatment(Fields& fields);
    void read_kill(Fields& fields);
    void read_residue(Fields& fields);
    void read_meal_kill(Fields& fields);
    void read_move(Fields& fields);
    void read_leave(Fields& fields);
    [[nodiscard]] AnimalNumbers read_animals(Fields& fields) const;
    void read_contact(Fields& fields);
    void read_import(Fields& fields);
    void read_check(const Json& object, const std::string& pointer);

    void add(decltype(CaseStep::what) what);
    [[nodiscard]] scenario::PlaceIndex enclosure(Fields& fields) const {
        return places_.find(fields, "place", PlaceNeed::enclosure);
    }
    [[nodiscard]] mites::Reach read_reach(Fields& fields) const;
    [[nodiscard]] scenario::PlaceIndex other_enclosure(Fields& fields, scenario::PlaceIndex from) const;
    void begin(Fields& fields, const std::string& pointer);

    const CasePlaces& places_;
    CaseClock clock_;
    Fault& fault_;
    std::vector<CaseStep> steps_;
    double time_ = 0;
    std::string pointer_;
};

/// The stage a key names; a fault if there is none or it cannot live in a room.
[[nodiscard]] mites::Stage read_stage(Fields& fields, bool in_room);

}  // namespace mitefall::formats
