#include "records/check_value.h"

#include <fmt/format.h>

#include <algorithm>

#include "records/limits.h"

namespace mitefall::records {
namespace {

using base::Failure;
using base::Result;
using Good = Result<void>;

constexpr std::size_t longest_session = 500;

Failure refuse(std::string what, std::string value, std::string limit, std::string remedy) {
    return base::fail(base::invalid(std::move(what), std::move(value), std::move(limit), std::move(remedy)));
}

template <class T>
bool has_repeats(std::vector<T> list) {
    std::sort(list.begin(), list.end());
    return std::adjacent_find(list.begin(), list.end()) != list.end();
}

Good check_length(const Handled& fact) {
    const std::size_t least = fact.shared_bag ? 2 : 1;
    if (fact.animals.size() >= least && fact.animals.size() <= longest_session) return {};
    return refuse(fact.shared_bag ? "a shared bag needs at least two animals"
                                  : "the list of animals handled does not do",
                  fmt::format("{} animals", fact.animals.size()),
                  fmt::format("{} to {}", least, longest_session),
                  "name the animals in the order in which they were handled");
}

Good check_rounds(const std::vector<units::Day>& rounds) {
    const bool ascending =
        std::adjacent_find(rounds.begin(), rounds.end(), std::greater_equal<>()) == rounds.end();
    if (ascending) return {};
    return refuse("the rounds are not in order", "", "every round on a later day than the one before",
                  "sort the days and name each one once");
}

Good check(const RoomAdded& fact) {
    const auto& list = fact.adjoining;
    if (std::find(list.begin(), list.end(), fact.room) != list.end()) {
        return refuse("a room does not adjoin itself", fact.room.text(), "other rooms only",
                      "leave it out of the list");
    }
    return first_failure({check_new_name("a room", fact.room.text()), check_text("room's name", fact.name),
                          check_climate(fact.climate), check_room_floor(fact.floor)});
}

Good check(const EnclosureAdded& fact) {
    return first_failure({check_new_name("an enclosure", fact.enclosure.text()),
                          check_text("enclosure's name", fact.name), check_climate(fact.climate),
                          check_enclosure_floor(fact.floor)});
}

Good check(const AnimalArrived& fact) {
    return first_failure({check_new_name("an animal", fact.animal.text()),
                          check_text("animal's name", fact.name), check_text("taxon", fact.taxon),
                          check_text("origin", fact.origin)});
}

Good check(const BystanderNoted& fact) {
    if (fact.name.empty() && fact.taxon.empty()) {
        return refuse("nothing is named", "", "a name or a kind of animal",
                      "say what lives in the house: \"cat\"");
    }
    return first_failure({check_text("name", fact.name), check_text("kind of animal", fact.taxon)});
}

Good check(const AnimalMoved&) { return {}; }
Good check(const AnimalLeft& fact) { return check_text("reason", fact.reason); }
Good check(const Handled& fact) { return check_length(fact); }

Good check(const ItemShared& fact) {
    if (fact.from == fact.to) {
        return refuse("the item did not leave its enclosure", fact.from.text(), "two different enclosures",
                      "name the enclosure it was used in next");
    }
    return check_needed_text("item", fact.item);
}

Good check(const Weighed& fact) { return check_mass(fact.mass); }
Good check(const ShedSeen&) { return {}; }

Good check(const ConditionNoted& fact) {
    return first_failure({check_text("agent", fact.agent), check_text("note", fact.note)});
}

Good check(const Sighted& fact) {
    if (fact.count != SeenCount::none) return {};
    return refuse("a sighting without a mite", std::string(to_text(fact.count)), "at least 1",
                  "record a check with nothing found instead");
}

Good check(const Checked&) { return {}; }

Good check(const Treated& fact) {
    if (has_repeats(fact.animals)) {
        return refuse("an animal is named twice", "", "each animal once", "leave the second out");
    }
    return check_strength(fact.strength);
}

Good check(const SubstrateChanged&) { return {}; }
Good check(const WaterMoved&) { return {}; }

Good check(const VetDirection& fact) {
    return first_failure(
        {check_needed_text("veterinarian's name", fact.who), check_needed_text("direction", fact.text)});
}

Good check(const StrengthAcknowledged& fact) {
    if (fact.strength == units::Strength{}) {
        return refuse("there is no strength to acknowledge", "0 mg/L", "above 0",
                      "give the strength of the mix");
    }
    return check_strength(fact.strength);
}

Good check(const PlanAdopted& fact) {
    if (has_repeats(fact.enclosures) || has_repeats(fact.rooms)) {
        return refuse("a place is named twice", "", "each enclosure and room once", "leave the second out");
    }
    return first_failure({check_rounds(fact.rounds), check_strength(fact.strength)});
}

Good check(const TaskDone& fact) { return check_needed_text("task", fact.task); }

Good check(const TaskSkipped& fact) {
    return first_failure({check_needed_text("task", fact.task), check_text("reason", fact.reason)});
}

Good check(const Withdrawn& fact) { return check_text("reason", fact.reason); }
Good check(const RoomTreated& fact) { return check_strength(fact.strength); }
Good check(const QuarantineEnded&) { return {}; }

}  // namespace

Result<void> check_value(const Fact& fact) {
    return std::visit([](const auto& one) { return check(one); }, fact);
}

}  // namespace mitefall::records
