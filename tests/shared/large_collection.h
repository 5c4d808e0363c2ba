#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

#include "records/facts.h"

// A breeder's collection of any size, as a journal: rooms of a hundred enclosures, grown animals and
// hatchlings, some about to shed, three enclosures with mites. For speed and for size.
namespace mitefall {

inline constexpr units::Day large_today = units::Day(std::chrono::year(2026) / 11 / 25);

/// How many climates the enclosures have: grown animals and hatchlings all in one; one for each; temperatures
/// half a degree apart; no two alike.
enum class Climates { one, two, thirteen, all };

class LargeCollection {
  public:
    explicit LargeCollection(int enclosures, Climates climates = Climates::two)
        : count_(enclosures), climates_(climates) {
        for (int i = 0; i < enclosures; ++i) {
            if (i % 100 == 0) add_room(i / 100);
            add_enclosure(i);
        }
        add(large_today - units::Days(9),
            records::Handled{{animal(0), animal(1), animal(150 % enclosures)}, false});
        add(large_today - units::Days(1),
            records::Sighted{enclosure(0), records::SeenCount::few, records::SeenWhere::on_animal});
        add(large_today, records::Sighted{enclosure(7 % enclosures), records::SeenCount::one,
                                          records::SeenWhere::in_water});
        add(large_today, records::Sighted{enclosure(120 % enclosures), records::SeenCount::one,
                                          records::SeenWhere::on_animal});
    }
    [[nodiscard]] const std::vector<records::Entry>& journal() const { return journal_; }

    static records::EnclosureId enclosure(int i) { return records::EnclosureId(fmt::format("e-{:05}", i)); }
    static records::AnimalId animal(int i) { return records::AnimalId(fmt::format("n-{:05}", i)); }

  private:
    static records::RoomId room(int i) { return records::RoomId(fmt::format("room-{:03}", i)); }
    static records::Climate climate(double day, double night, double humidity) {
        return {units::celsius(day), units::celsius(night), units::relative_humidity_percent(humidity)};
    }

    void add(units::Day day, records::Fact fact) {
        journal_.push_back({static_cast<records::FactId>(journal_.size() + 1), day,
                            fmt::format("2026-11-25T{:02}:00:00Z", 1 + journal_.size() / 100000),
                            std::move(fact), std::nullopt});
    }

    [[nodiscard]] records::Climate climate_of(int i, bool hatchlings) const {
        switch (climates_) {
            case Climates::one: return climate(30, 26, 60);
            case Climates::two: return hatchlings ? climate(29, 27, 65) : climate(30, 26, 60);
            case Climates::thirteen: return climate(25 + 0.5 * (i % 13), 24 + 0.5 * (i % 13), 60);
            case Climates::all: break;
        }
        const double share = static_cast<double>(i) / count_;
        return climate(25 + 7 * share, 24 + 3 * share, 50 + 30 * share);
    }

    void add_room(int i) {
        std::vector<records::RoomId> adjoining;
        if (i % 5 != 0) adjoining.push_back(room(i - 1));
        add(start(), records::RoomAdded{room(i), fmt::format("Room {}", i + 1), climate(24, 22, 50),
                                        adjoining, units::square_metres(30)});
    }

    void add_enclosure(int i) {
        const bool hatchlings = i % 100 >= 70;
        add(start(), records::EnclosureAdded{enclosure(i), fmt::format("Tub {}", i + 1), room(i / 100),
                                             records::Material::sealed, records::Substrate::paper,
                                             climate_of(i, hatchlings),
                                             units::square_centimetres(hatchlings ? 900 : 3600)});
        if (i % 20 == 19) return;  // empty
        const char* const taxon = i % 3 == 0 ? "ball python" : i % 3 == 1 ? "corn snake" : "boa constrictor";
        add(start(), records::AnimalArrived{animal(i), fmt::format("Snake {}", i + 1), taxon, "hatched here",
                                            enclosure(i), false});
        add(large_today - units::Days(20),
            records::Weighed{animal(i), units::grams(hatchlings ? 120 : 600 + 10.0 * (i % 70))});
        if (i % 40 == 3)
            add(large_today - units::Days(2), records::ShedSeen{animal(i), records::ShedState::cloudy});
    }

    static units::Day start() { return large_today - units::Days(400); }

    int count_;
    Climates climates_;
    std::vector<records::Entry> journal_;
};

}  // namespace mitefall
