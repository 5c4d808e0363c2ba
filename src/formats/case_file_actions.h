#pragma once

#include <variant>
#include <vector>

#include "forecast/actions.h"
#include "formats/case_file_places.h"

namespace mitefall::formats {

/// One thing done or looked at, with the place in the file that says so.
struct CaseStep {
    double time = 0;  ///< days of the scenario
    std::variant<forecast::Action, forecast::Happening> what;
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
    void write(forecast::Scenario& scenario, const forecast::FixedParameters& fixed);

  private:
    void read_action(const Json& object, const std::string& pointer);
    [[nodiscard]] bool read_known(Fields& fields, std::string_view action);
    void read_treatment(Fields& fields);
    void read_kill(Fields& fields);
    void read_residue(Fields& fields);
    void read_meal_kill(Fields& fields);
    void read_move(Fields& fields);
    void read_contact(Fields& fields);
    void read_import(Fields& fields);
    void read_check(const Json& object, const std::string& pointer);

    void add(std::variant<forecast::Action, forecast::Happening> what);
    [[nodiscard]] forecast::PlaceIndex enclosure(Fields& fields) const {
        return places_.find(fields, "place", PlaceNeed::enclosure);
    }
    [[nodiscard]] forecast::Reach read_reach(Fields& fields) const;
    [[nodiscard]] forecast::PlaceIndex other_enclosure(Fields& fields, forecast::PlaceIndex from) const;
    void begin(Fields& fields, const std::string& pointer);

    const CasePlaces& places_;
    CaseClock clock_;
    Fault& fault_;
    std::vector<CaseStep> steps_;
    double time_ = 0;
    std::string pointer_;
};

/// The stage a key names; a fault if there is none or it cannot live in a room.
[[nodiscard]] forecast::Stage read_stage(Fields& fields, bool in_room);

}  // namespace mitefall::formats
