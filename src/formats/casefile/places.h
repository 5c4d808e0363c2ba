#pragma once

#include <map>
#include <set>

#include "formats/casefile/fields.h"
#include "scenario/scenario.h"

namespace mitefall::formats {

enum class PlaceNeed { any, enclosure, room };

/// The places of a case by name.
class CasePlaces {
  public:
    /// Reads "places" into the scenario.
    void read(const Json& array, const std::string& pointer, Fault& fault, scenario::Scenario& scenario);

    /// The place a key names; `nowhere` and a fault if there is none of that sort.
    [[nodiscard]] scenario::PlaceIndex find(Fields& fields, std::string_view key, PlaceNeed need) const;
    [[nodiscard]] bool is_room(scenario::PlaceIndex place) const { return rooms_.contains(place); }

  private:
    struct Named {
        scenario::PlaceIndex index = 0;
        bool is_room = false;
    };

    void read_place(const Json& object, const std::string& pointer, Fault& fault,
                    scenario::Scenario& scenario);
    void connect(const Json& object, const std::string& pointer, Fault& fault,
                 scenario::Scenario& scenario) const;
    void adjoin(const Json& rooms, const std::string& pointer, Fault& fault, scenario::PlaceIndex room,
                scenario::Scenario& scenario) const;

    std::map<std::string, Named, std::less<>> by_name_;
    std::set<scenario::PlaceIndex> rooms_;
};

/// "temperature_c" (a number, or day and night) and "humidity_percent".
[[nodiscard]] records::Climate read_climate(Fields& fields);

}  // namespace mitefall::formats
