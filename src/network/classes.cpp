#include "network/classes.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <string>
#include <string_view>
#include <unordered_map>

namespace mitefall::network {
namespace {

/// What tells two places or events apart, as bytes.
class Signature {
  public:
    Signature& add(double value) { return add_bytes(value == 0 ? 0.0 : value); }  // -0 is 0
    Signature& add(std::size_t value) { return add_bytes(value); }
    Signature& add(const records::Climate& climate) {
        return add(units::in_celsius(climate.day))
            .add(units::in_celsius(climate.night))
            .add(units::in_percent(climate.humidity));
    }
    Signature& add(const scenario::Amount& amount) {
        return add(amount.fixed)
            .add_bytes(amount.parameter)
            .add_bytes(amount.toward)
            .add(amount.weight)
            .add(amount.factor);
    }
    Signature& add(const scenario::Dab& dab) { return add(dab.chance).add(dab.part); }
    Signature& add(const scenario::Dose& dose) { return add(dose.chance).add(dose.part).add(dose.until); }
    /// It does not matter which animal is which.
    template <class Given>
    Signature& add(const std::vector<std::vector<Given>>& animals) {
        std::vector<std::string> each;
        for (const std::vector<Given>& given : animals) {
            Signature one;
            for (const Given& g : given) one.add(g);
            each.push_back(one.add(given.size()).bytes());
        }
        std::sort(each.begin(), each.end());
        for (const std::string& one : each) bytes_ += one;
        return add(animals.size());
    }
    Signature& add(mites::Reach reach) { return add(static_cast<std::size_t>(reach)); }
    [[nodiscard]] const std::string& bytes() const { return bytes_; }

  private:
    template <class T>
    Signature& add_bytes(T value) {
        std::array<char, sizeof(T)> raw;
        std::memcpy(raw.data(), &value, sizeof(T));
        bytes_.append(raw.data(), raw.size());
        return *this;
    }
    std::string bytes_;
};

void describe(const scenario::Kill& e, Signature& s) { s.add(e.reach).add(e.chance).add(e.part); }
void describe(const scenario::Residue& e, Signature& s) { s.add(e.level).add(e.half_life).add(e.damp_until); }
void describe(const scenario::ResidueGone&, Signature&) {}
void describe(const scenario::Medicated& e, Signature& s) { s.add(e.animals); }
void describe(const scenario::KillOnAnimals& e, Signature& s) { s.add(e.animals); }
void describe(const scenario::MoveAnimal&, Signature&) {}
void describe(const scenario::AnimalJoins&, Signature&) {}
void describe(const scenario::AnimalLeaves&, Signature&) {}
void describe(const scenario::Contact& e, Signature& s) { s.add(e.reach).add(e.chance); }
void describe(const scenario::CleanCheck& e, Signature& s) {
    s.add(e.detection).add(e.nest_part).add(static_cast<std::size_t>(e.of_light)).add(e.trap);
}
void describe(const scenario::ClimateChange& e, Signature& s) { s.add(e.climate); }
void describe(const scenario::Import& e, Signature& s) {
    s.add(static_cast<std::size_t>(e.stage)).add(e.rate).add(e.until);
}

void describe_place(const scenario::Place& place, scenario::PlaceIndex index, Signature& s) {
    s.add(place.set_apart ? index : scenario::nowhere).add(static_cast<std::size_t>(place.is_room));
    s.add(static_cast<std::size_t>(place.room == scenario::nowhere));
    s.add(place.climate).add(static_cast<double>(place.animals));
}

Classes collect(const std::vector<std::size_t>& class_of, std::size_t count) {
    Classes classes{class_of, std::vector<std::vector<scenario::PlaceIndex>>(count)};
    for (scenario::PlaceIndex place = 0; place < class_of.size(); ++place)
        classes.members[class_of[place]].push_back(place);
    return classes;
}

/// Numbers equal signatures alike, in order of first appearance.
std::size_t number(const std::vector<Signature>& signatures, std::vector<std::size_t>& numbers) {
    std::unordered_map<std::string_view, std::size_t> seen;
    for (std::size_t i = 0; i < signatures.size(); ++i)
        numbers[i] = seen.try_emplace(signatures[i].bytes(), seen.size()).first->second;
    return seen.size();
}

/// Where mites can go from each place: by events in the order of these, and by walking, in any order.
struct Ways {
    std::vector<std::vector<scenario::PlaceIndex>> by_event;
    std::vector<std::vector<scenario::PlaceIndex>> by_walking;
};

/// What each place is and what happens to it, and where that leads.
std::vector<Signature> describe_all(const scenario::Scenario& scenario, Ways& ways) {
    const std::size_t n = scenario.places.size();
    std::vector<Signature> own(n);
    std::vector<std::size_t> events_so_far(n, 0);
    for (scenario::PlaceIndex p = 0; p < n; ++p) describe_place(scenario.places[p], p, own[p]);
    for (const scenario::Event& event : scenario.events) {
        const scenario::PlaceIndex place = scenario::place_of(event.what);
        const scenario::PlaceIndex target = scenario::target_of(event.what);
        own[place].add(event.what.index()).add(event.time);
        std::visit([&](const auto& e) { describe(e, own[place]); }, event.what);
        ++events_so_far[place];
        if (target == scenario::nowhere) continue;
        // Where the target stands in its own course of events decides which of its values is met.
        own[place].add(events_so_far[target]);
        ways.by_event[place].push_back(target);
        if (std::holds_alternative<scenario::MoveAnimal>(event.what)) {
            own[target].add(std::variant_size_v<scenario::Happening>).add(event.time);
            ++events_so_far[target];
        }
    }
    return own;
}

void add_walks(const scenario::Scenario& scenario, Ways& ways) {
    for (scenario::PlaceIndex p = 0; p < scenario.places.size(); ++p) {
        const scenario::Place& place = scenario.places[p];
        auto& from_here = ways.by_walking[p];
        from_here.insert(from_here.end(), place.adjoining.begin(), place.adjoining.end());
        if (place.is_room || place.room == scenario::nowhere) continue;
        ways.by_walking[p].push_back(place.room);
        ways.by_walking[place.room].push_back(p);
    }
}

}  // namespace

Classes lump(const scenario::Scenario& scenario) {
    const std::size_t n = scenario.places.size();
    Ways ways{std::vector<std::vector<scenario::PlaceIndex>>(n),
              std::vector<std::vector<scenario::PlaceIndex>>(n)};
    std::vector<std::size_t> class_of(n);
    std::size_t count = number(describe_all(scenario, ways), class_of);
    add_walks(scenario, ways);
    while (true) {
        std::vector<Signature> signatures(n);
        for (scenario::PlaceIndex p = 0; p < n; ++p) {
            signatures[p].add(class_of[p]);
            for (const scenario::PlaceIndex target : ways.by_event[p]) signatures[p].add(class_of[target]);
            std::vector<std::size_t> near;
            for (const scenario::PlaceIndex target : ways.by_walking[p]) near.push_back(class_of[target]);
            std::sort(near.begin(), near.end());
            for (const std::size_t c : near) signatures[p].add(c);
        }
        const std::size_t finer = number(signatures, class_of);
        if (finer == count) return collect(class_of, count);
        count = finer;
    }
}

std::string signature_of(const scenario::Scenario& scenario) {
    Signature all;
    for (scenario::PlaceIndex p = 0; p < scenario.places.size(); ++p) {
        const scenario::Place& place = scenario.places[p];
        describe_place(place, p, all);
        all.add(static_cast<std::size_t>(place.material)).add(place.room).add(place.adjoining.size());
        for (const scenario::PlaceIndex other : place.adjoining) all.add(other);
    }
    for (const scenario::Event& event : scenario.events) {
        all.add(event.what.index())
            .add(event.time)
            .add(scenario::place_of(event.what))
            .add(scenario::target_of(event.what));
        std::visit([&](const auto& e) { describe(e, all); }, event.what);
    }
    return all.bytes();
}

Classes keep_apart(const scenario::Scenario& scenario) {
    std::vector<std::size_t> class_of(scenario.places.size());
    for (scenario::PlaceIndex p = 0; p < class_of.size(); ++p) class_of[p] = p;
    return collect(class_of, class_of.size());
}

}  // namespace mitefall::network
