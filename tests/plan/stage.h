#pragma once

#include <set>
#include <string>
#include <utility>

#include "plan/schedule.h"
#include "safety/scene.h"

// A collection with mites seen in it, ready to be planned for.
namespace mitefall::plan {

inline records::EnclosureId enclosure(const std::string& name) { return records::EnclosureId(name); }
inline records::AnimalId animal(const std::string& name) { return records::AnimalId(name); }
inline units::Days days(int number) { return units::Days(number); }

/// Keeps everything a setting refers to. Every enclosure has a floor of 2000 cm2.
class Stage {
  public:
    using Enclosures = std::set<records::EnclosureId>;

    explicit Stage(safety::Scene scene, const Enclosures& sighted = {enclosure("tub")},
                   Enclosures exposed = {}, units::Day today = safety::today(), double strength = 10)
        : scene_(with_floors(std::move(scene))),
          with_(safety::prepare(scene_.collection, safety::tables(), safety::taxa())),
          known_(known_of(scene_.collection, sighted)),
          setting{with_, known_, std::move(exposed), today, safety::mg_per_l(strength)} {}
    Stage(const Stage&) = delete;
    Stage& operator=(const Stage&) = delete;

    [[nodiscard]] const records::Collection& collection() const { return scene_.collection; }

  private:
    static safety::Scene with_floors(safety::Scene scene) {
        for (auto& [id, place] : scene.collection.enclosures) place.floor = units::square_centimetres(2000);
        return scene;
    }

    static scenario::RecordedCase known_of(const records::Collection& collection, const Enclosures& sighted) {
        scenario::RecordedCase known;
        scenario::PlaceIndex next = 0;
        for (const auto& [id, room] : collection.rooms) known.rooms[id] = next++;
        for (const auto& [id, place] : collection.enclosures) {
            known.enclosures[id] = next;
            if (sighted.contains(id)) known.sighted.push_back(next);
            ++next;
        }
        return known;
    }

    safety::Scene scene_;
    safety::Case with_;
    scenario::RecordedCase known_;

  public:
    Setting setting;
};

}  // namespace mitefall::plan
