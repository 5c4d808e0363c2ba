#include "records/check_value.h"

#include <fmt/format.h>

#include <algorithm>

#include "records/limits.h"
#include "units/text.h"

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
    return first_failure({check_new_name("a room", fact.room.text()), check_label("room's name", fact.name),
                          check_climate(fact.climate), check_room_floor(fact.floor)});
}

Good check(const EnclosureAdded& fact) {
    return first_failure({check_new_name("an enclosure", fact.enclosure.text()),
                          check_label("enclosure's name", fact.name), check_climate(fact.climate),
                          check_enclosure_floor(fact.floor)});
}

Good check(const AnimalArrived& fact) {
    return first_failure({check_new_name("an animal", fact.animal.text()),
                          check_label("animal's name", fact.name), check_label("taxon", fact.taxon),
                          check_label("origin", fact.origin)});
}

Good check(const BystanderNoted& fact) {
    if (fact.name.empty() && fact.taxon.empty()) {
        return refuse("nothing is named", "", "a name or a kind of animal",
                      "say what lives in the house: \"cat\"");
    }
    return first_failure({check_label("name", fact.name), check_label("kind of animal", fact.taxon)});
}

/// A reason in words only of what was warned of.
Good check_knowing(bool knowing, const std::string& reason) {
    if (knowing || reason.empty()) return check_text("reason", reason);
    return refuse("a reason for going on all the same, and no warning", reason, "none without a warning",
                  "leave it out");
}

Good check(const AnimalMoved& fact) { return check_knowing(fact.knowing, fact.knowing_reason); }
Good check(const AnimalLeft& fact) {
    return first_failure(
        {check_text("reason", fact.reason), check_knowing(fact.knowing, fact.knowing_reason)});
}
Good check(const Handled& fact) { return check_length(fact); }

Good check(const ItemShared& fact) {
    if (fact.from == fact.to) {
        return refuse("the item did not leave its enclosure", fact.from.text(), "two different enclosures",
                      "name the enclosure it was used in next");
    }
    return first_failure({check_needed_text("item", fact.item), check_label("item", fact.item)});
}

Good check(const Weighed& fact) { return check_mass(fact.mass); }
Good check(const ShedSeen&) { return {}; }

Good check(const ConditionNoted& fact) {
    return first_failure({check_label("agent", fact.agent), check_text("note", fact.note)});
}

Good check(const Sighted& fact) {
    if (fact.count != SeenCount::none) return {};
    return refuse("a sighting without a mite", std::string(to_text(fact.count)), "at least 1",
                  "record a check with nothing found instead");
}

Good check(const Checked& fact) {
    if (!fact.where || fact.count != SeenCount::none) return {};
    return refuse("a place where mites were seen, and no mite", std::string(to_text(*fact.where)),
                  "a place only with a number", "say how many were seen, or leave the place out");
}

/// Without their names an application would be missing from the animals' count.
bool is_given_to_animals(Method method) {
    switch (method) {
        case Method::spray_animal:
        case Method::soak:
        case Method::wipe:
        case Method::fipronil_wipe:
        case Method::oral_afoxolaner:
        case Method::oral_fluralaner:
        case Method::injected_ivermectin:
        case Method::oil_wipe:
        case Method::soap_wash: return true;
        case Method::spray_bedding:
        case Method::change_substrate:
        case Method::treat_room:
        case Method::permethrin_empty:
        case Method::heat_objects:
        case Method::freeze_objects:
        case Method::desiccant_dust:
        case Method::predatory_mites: return false;
    }
    return false;
}

Good check(const Treated& fact) {
    if (fact.animals.empty() && is_given_to_animals(fact.method)) {
        return refuse("no animal is named", std::string(to_text(fact.method)),
                      "this is given to animals, and each one's treatments are counted",
                      "name the animals it was given to");
    }
    if (fact.method == Method::treat_room) {
        return refuse("treating a room is not something done to an enclosure", fact.enclosure.text(),
                      "floor, racks and walls of a room",
                      "record it for the room: \"record room-treatment ROOM\"");
    }
    if (has_repeats(fact.animals)) {
        return refuse("an animal is named twice", "", "each animal once", "leave the second out");
    }
    return check_strength(fact.strength);
}

Good check(const SubstrateChanged&) { return {}; }
Good check(const WaterMoved&) { return {}; }

Good check_number_of_treatments(int treatments) {
    constexpr int most = 100;
    if (treatments >= 0 && treatments <= most) return {};
    return refuse("the number of treatments is not possible", std::to_string(treatments),
                  "1 to " + std::to_string(most), "leave it out where the direction names none");
}

Good check(const VetDirection& fact) {
    return first_failure({check_needed_text("veterinarian's name", fact.who),
                          check_label("veterinarian's name", fact.who),
                          check_needed_text("direction", fact.text), check_strength(fact.strength),
                          check_number_of_treatments(fact.treatments)});
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
    if (!fact.terms.are_known() && fact.terms != CourseTerms{}) {
        return refuse("the scope of the course is missing", "", "given with its treatments",
                      "say how far the course reaches");
    }
    if (!fact.continues && !fact.moved.empty()) {
        return refuse("rounds are moved of a course that does not go on", "", "none in a new course",
                      "say that it continues the course before it");
    }
    for (const CourseTreatment& treatment : fact.terms.treatments) {
        if (auto good = check_text("task", treatment.task); !good) return good;
    }
    for (const CourseRefusal& row : fact.terms.left_out) {
        if (auto good = first_failure({check_text("reason", row.reason), check_text("rule", row.rule),
                                       check_text("common", row.common), check_text("own", row.own),
                                       check_text("remedy", row.remedy)});
            !good)
            return good;
    }
    return first_failure(
        {check_text("scope", fact.terms.scope), check_rounds(fact.rounds), check_strength(fact.strength)});
}

Good check(const TaskDone& fact) { return check_needed_text("task", fact.task); }

Good check(const TaskSkipped& fact) {
    return first_failure({check_needed_text("task", fact.task), check_text("reason", fact.reason)});
}

Good check(const Withdrawn& fact) { return check_text("reason", fact.reason); }
Good check(const RoomTreated& fact) { return check_strength(fact.strength); }
Good check(const QuarantineEnded& fact) { return check_text("reason", fact.reason); }

Good check_batch_strength(const BatchMade& fact) {
    const bool in_order = fact.low <= fact.strength && fact.strength <= fact.high;
    if (in_order && fact.strength > units::Strength{} && fact.high <= fact.stock_strength) return {};
    return refuse("the strength of the batch is not possible", units::show(fact.strength),
                  "above 0, within its range, not above the stock", "work it out on the mixing bench");
}

Good check_batch_volumes(const BatchMade& fact) {
    if (fact.stock > units::Volume{} && fact.stock <= fact.total) return {};
    return refuse("the batch does not hold its stock", units::show(fact.total, {}),
                  "more than the " + units::show(fact.stock, {}) + " of stock in it", "correct the volumes");
}

Good check(const BatchMade& fact) {
    return first_failure({check_new_name("a batch", fact.batch.text()),
                          check_needed_text("active ingredient", fact.agent),
                          check_label("active ingredient", fact.agent), check_strength(fact.stock_strength),
                          check_batch_strength(fact), check_batch_volumes(fact),
                          check_batch_total(fact.total), check_text("way it was measured", fact.steps)});
}

Good check(const BatchDiscarded& fact) { return check_text("way of disposal", fact.how); }

/// Of a kind that has none.
template <class T>
Good amounts(const T&) {
    return {};
}
Good amounts(const RoomAdded& fact) {
    return first_failure({check_new_name("a room", fact.room.text()), check_climate(fact.climate),
                          check_room_floor(fact.floor)});
}
Good amounts(const EnclosureAdded& fact) {
    return first_failure({check_new_name("an enclosure", fact.enclosure.text()), check_climate(fact.climate),
                          check_enclosure_floor(fact.floor)});
}
Good amounts(const AnimalArrived& fact) { return check_new_name("an animal", fact.animal.text()); }
Good amounts(const Weighed& fact) { return check_mass(fact.mass); }
Good amounts(const Treated& fact) {
    if (has_repeats(fact.animals)) return check(fact);
    return check_strength(fact.strength);
}
Good amounts(const RoomTreated& fact) { return check_strength(fact.strength); }
Good amounts(const VetDirection& fact) {
    return first_failure({check_strength(fact.strength), check_number_of_treatments(fact.treatments)});
}
Good amounts(const StrengthAcknowledged& fact) { return check_strength(fact.strength); }
Good amounts(const PlanAdopted& fact) {
    if (has_repeats(fact.enclosures) || has_repeats(fact.rooms)) return check(fact);
    return first_failure({check_rounds(fact.rounds), check_strength(fact.strength)});
}
Good amounts(const BatchMade& fact) {
    return first_failure({check_new_name("a batch", fact.batch.text()), check_strength(fact.stock_strength),
                          check_batch_strength(fact), check_batch_volumes(fact),
                          check_batch_total(fact.total)});
}

}  // namespace

Result<void> check_amounts(const Fact& fact) {
    return std::visit([](const auto& one) { return amounts(one); }, fact);
}

Result<void> check_value(const Fact& fact) {
    return std::visit([](const auto& one) { return check(one); }, fact);
}

}  // namespace mitefall::records
