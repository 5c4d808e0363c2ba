#include "forecast/classes.h"

#include <fmt/format.h>
#include <iterator>
#include <unordered_map>

namespace mitefall::forecast {
namespace {

/// Writes what tells two places or events apart; numbers in full precision.
class Signature {
  public:
    Signature& add(double value) {
        fmt::format_to(std::back_inserter(text_), "{:a},", value);
        return *this;
    }
    Signature& add(std::size_t value) {
        fmt::format_to(std::back_inserter(text_), "{},", value);
        return *this;
    }
    Signature& add(const records::Climate& climate) {
        return add(units::in_celsius(climate.day))
            .add(units::in_celsius(climate.night))
            .add(units::in_percent(climate.humidity));
    }
    Signature& add(const Amount& amount) {
        return add(amount.fixed)
            .add(field(amount.parameter))
            .add(field(amount.toward))
            .add(amount.weight)
            .add(amount.factor);
    }
    Signature& add(Reach reach) { return add(static_cast<std::size_t>(reach)); }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    static std::size_t field(ParameterMember member) {
        std::size_t index = 0;
        for (const ParameterField& known : parameter_fields()) {
            if (known.member == member) return index;
            ++index;
        }
        return index;
    }
    std::string text_;
};

void describe(const Kill& e, Signature& s) { s.add(e.reach).add(e.chance).add(e.part); }
void describe(const Residue& e, Signature& s) { s.add(e.level).add(e.half_life).add(e.damp_until); }
void describe(const ResidueGone&, Signature&) {}
void describe(const MealKill& e, Signature& s) { s.add(e.chance).add(e.part).add(e.until); }
void describe(const MoveAnimal&, Signature&) {}
void describe(const AnimalJoins&, Signature&) {}
void describe(const AnimalLeaves&, Signature&) {}
void describe(const Contact& e, Signature& s) { s.add(e.reach).add(e.chance); }
void describe(const CleanCheck& e, Signature& s) {
    s.add(e.detection).add(e.nest_part).add(static_cast<std::size_t>(e.of_light)).add(e.trap);
}
void describe(const ClimateChange& e, Signature& s) { s.add(e.climate); }
void describe(const Import& e, Signature& s) {
    s.add(static_cast<std::size_t>(e.stage)).add(e.rate).add(e.until);
}

std::string describe_place(const Place& place, PlaceIndex index) {
    Signature s;
    s.add(place.is_room || place.set_apart ? index : nowhere).add(place.room);
    s.add(place.climate).add(static_cast<double>(place.animals));
    return s.text();
}

Classes collect(const std::vector<std::size_t>& class_of, std::size_t count) {
    Classes classes{class_of, std::vector<std::vector<PlaceIndex>>(count)};
    for (PlaceIndex place = 0; place < class_of.size(); ++place)
        classes.members[class_of[place]].push_back(place);
    return classes;
}

/// Numbers equal texts alike, in order of first appearance.
std::size_t number_texts(const std::vector<std::string>& texts, std::vector<std::size_t>& numbers) {
    std::unordered_map<std::string, std::size_t> seen;
    for (std::size_t i = 0; i < texts.size(); ++i)
        numbers[i] = seen.try_emplace(texts[i], seen.size()).first->second;
    return seen.size();
}

}  // namespace

Classes lump(const Scenario& scenario) {
    const std::size_t n = scenario.places.size();
    std::vector<std::string> own(n);
    std::vector<std::vector<PlaceIndex>> leads(n);
    std::vector<std::size_t> events_so_far(n, 0);
    for (PlaceIndex p = 0; p < n; ++p) own[p] = describe_place(scenario.places[p], p);
    for (const Event& event : scenario.events) {
        const PlaceIndex place = place_of(event.what);
        const PlaceIndex target = target_of(event.what);
        Signature s;
        s.add(event.what.index()).add(event.time);
        std::visit([&](const auto& e) { describe(e, s); }, event.what);
        ++events_so_far[place];
        if (target != nowhere) {
            // Where the target stands in its own course of events decides which of its values is met.
            s.add(events_so_far[target]);
            leads[place].push_back(target);
            if (std::holds_alternative<MoveAnimal>(event.what)) {
                own[target] += fmt::format("|joined {:a}", event.time);
                ++events_so_far[target];
            }
        }
        own[place] += "|" + s.text();
    }
    std::vector<std::size_t> class_of(n);
    std::size_t count = number_texts(own, class_of);
    while (true) {
        std::vector<std::string> texts(n);
        for (PlaceIndex p = 0; p < n; ++p) {
            texts[p] = std::to_string(class_of[p]);
            for (const PlaceIndex target : leads[p]) texts[p] += fmt::format(">{}", class_of[target]);
        }
        const std::size_t finer = number_texts(texts, class_of);
        if (finer == count) return collect(class_of, count);
        count = finer;
    }
}

Classes keep_apart(const Scenario& scenario) {
    std::vector<std::size_t> class_of(scenario.places.size());
    for (PlaceIndex p = 0; p < class_of.size(); ++p) class_of[p] = p;
    return collect(class_of, class_of.size());
}

}  // namespace mitefall::forecast
