#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "records/apply.h"
#include "records/limits.h"
#include "units/text.h"

namespace mitefall::records {
namespace {

base::Error taken(std::string_view noun, const std::string& id) {
    return {base::ErrorKind::already_exists,
            "the name is taken by another " + std::string(noun),
            id,
            "every " + std::string(noun) + " has a name of its own",
            "choose another name",
            {}};
}

bool is_told_by(const BystanderNoted& who, const BystanderNoted& noted) {
    const auto agrees = [](const std::string& said, const std::string& is) {
        return said.empty() || on_one_line(said) == is;
    };
    return agrees(who.name, noted.name) && agrees(who.taxon, noted.taxon) &&
           (who.room.empty() || who.room == noted.room);
}

base::Error cannot_move(const BystanderMoved& fact, bool is_there_already) {
    const std::string& who = fact.who.name.empty() ? fact.who.taxon : fact.who.name;
    if (!is_there_already) {
        return {base::ErrorKind::not_found,
                "there is no other life of that name on record",
                who,
                "as it was noted, on that day",
                "look it up, or note it first",
                {}};
    }
    return {base::ErrorKind::conflict,
            fact.out ? "it has moved out already" : "it is here already",
            who,
            fact.out ? "what is here moves out" : "what moved out comes back",
            "check the name, the room and the day",
            {}};
}

void join(Room& room, const RoomId& other) {
    auto& list = room.adjoining;
    const auto place = std::lower_bound(list.begin(), list.end(), other);
    if (place == list.end() || *place != other) list.insert(place, other);
}

/// More than any rack has (assumption): a slip of the finger is told.
constexpr int most_of_a_rack = 100;

Applied check_count(std::string_view what, int value) {
    if (value >= 1 && value <= most_of_a_rack) return {};
    return refuse(fmt::format("the {} is not possible", what), std::to_string(value),
                  fmt::format("1 to {}", most_of_a_rack),
                  "count levels from the top, positions from the left");
}

}  // namespace

Applied RoomAdded::check(const RoomAdded& fact) {
    const auto& list = fact.adjoining;
    if (std::find(list.begin(), list.end(), fact.room) != list.end()) {
        return refuse("a room does not adjoin itself", fact.room.text(), "other rooms only",
                      "leave it out of the list");
    }
    return first_failure({check_new_name("a room", fact.room.text()), check_label("room's name", fact.name),
                          check_climate(fact.climate), check_room_floor(fact.floor)});
}

Applied RoomAdded::check_amounts(const RoomAdded& fact) {
    return first_failure({check_new_name("a room", fact.room.text()), check_climate(fact.climate),
                          check_room_floor(fact.floor)});
}

Applied RoomAdded::apply(const RoomAdded& fact, const Effect& effect) {
    auto& rooms = effect.collection().rooms;
    if (rooms.contains(fact.room)) return base::fail(taken("room", fact.room.text()));
    for (const RoomId& other : fact.adjoining) {
        if (const auto found = find_room(other, effect); !found) return base::fail(found.error());
    }
    Room& room = rooms[fact.room];
    room = {fact.room, on_one_line(fact.name), fact.climate, {}, fact.floor};
    for (const RoomId& other : fact.adjoining) {
        join(room, other);
        join(rooms.at(other), fact.room);
    }
    return {};
}

Applied EnclosureAdded::check(const EnclosureAdded& fact) {
    return first_failure({check_new_name("an enclosure", fact.enclosure.text()),
                          check_label("enclosure's name", fact.name), check_climate(fact.climate),
                          check_enclosure_floor(fact.floor)});
}

Applied EnclosureAdded::check_amounts(const EnclosureAdded& fact) {
    return first_failure({check_new_name("an enclosure", fact.enclosure.text()), check_climate(fact.climate),
                          check_enclosure_floor(fact.floor)});
}

Applied EnclosureAdded::apply(const EnclosureAdded& fact, const Effect& effect) {
    auto& enclosures = effect.collection().enclosures;
    if (enclosures.contains(fact.enclosure)) return base::fail(taken("enclosure", fact.enclosure.text()));
    if (const auto room = find_room(fact.room, effect); !room) return base::fail(room.error());
    enclosures[fact.enclosure] = {fact.enclosure, on_one_line(fact.name), fact.room,  fact.material,
                                  fact.substrate, fact.climate,           fact.floor, false,
                                  std::nullopt};
    return {};
}

Applied BystanderNoted::check(const BystanderNoted& fact) {
    if (fact.name.empty() && fact.taxon.empty()) {
        return refuse("nothing is named", "", "a name or a kind of animal",
                      "say what lives in the house: \"cat\"");
    }
    return first_failure({check_label("name", fact.name), check_label("kind of animal", fact.taxon)});
}

Applied BystanderNoted::apply(const BystanderNoted& fact, const Effect& effect) {
    if (!fact.room.empty()) {
        if (const auto room = find_room(fact.room, effect); !room) return base::fail(room.error());
    }
    effect.collection().bystanders.push_back({on_one_line(fact.name), on_one_line(fact.taxon), fact.room});
    return {};
}

Applied BystanderMoved::apply(const BystanderMoved& fact, const Effect& effect) {
    auto& here = effect.collection().bystanders;
    auto& away = effect.collection().bystanders_away;
    const auto is_meant = [&](const BystanderNoted& noted) { return is_told_by(fact.who, noted); };
    const auto is_meant_away = [&](const auto& one) { return is_meant(one.value); };
    const auto first_here = std::stable_partition(here.begin(), here.end(), std::not_fn(is_meant));
    const auto first_away = std::stable_partition(away.begin(), away.end(), std::not_fn(is_meant_away));
    if (fact.out ? first_here == here.end() : first_away == away.end())
        return base::fail(cannot_move(fact, fact.out ? first_away != away.end() : first_here != here.end()));
    if (fact.out) {
        for (auto one = first_here; one != here.end(); ++one) away.push_back(effect.dated(*one));
        here.erase(first_here, here.end());
    } else {
        for (auto one = first_away; one != away.end(); ++one) here.push_back(one->value);
        away.erase(first_away, away.end());
    }
    return {};
}

Applied ItemShared::check(const ItemShared& fact) {
    if (fact.from == fact.to) {
        return refuse("the item did not leave its enclosure", fact.from.text(), "two different enclosures",
                      "name the enclosure it was used in next");
    }
    return first_failure({check_needed_text("item", fact.item), check_label("item", fact.item)});
}

Applied ItemShared::apply(const ItemShared& fact, const Effect& effect) {
    if (const auto from = find_enclosure(fact.from, effect); !from) return base::fail(from.error());
    if (const auto to = find_enclosure(fact.to, effect); !to) return base::fail(to.error());
    return {};
}

Applied OutsideContact::check(const OutsideContact& fact) { return check_label("note", fact.note); }

Applied OutsideContact::apply(const OutsideContact& fact, const Effect& effect) {
    for (const RoomId& id : fact.rooms) {
        if (const auto room = find_room(id, effect); !room) return base::fail(room.error());
    }
    for (const EnclosureId& id : fact.enclosures) {
        if (const auto enclosure = find_enclosure(id, effect); !enclosure)
            return base::fail(enclosure.error());
    }
    effect.collection().outside.push_back(effect.dated(fact));
    return {};
}

Applied SubstrateChanged::apply(const SubstrateChanged& fact, const Effect& effect) {
    const auto enclosure = find_enclosure(fact.enclosure, effect);
    if (!enclosure) return base::fail(enclosure.error());
    (*enclosure)->substrate = fact.to;
    (*enclosure)->substrate_changed = effect.day;
    return {};
}

Applied WaterMoved::apply(const WaterMoved& fact, const Effect& effect) {
    const auto enclosure = find_enclosure(fact.enclosure, effect);
    if (!enclosure) return base::fail(enclosure.error());
    Enclosure& place = **enclosure;
    if (!fact.out) {
        if (place.water_out_since) place.dry_spells.push_back({*place.water_out_since, effect.day});
        place.water_out_since.reset();
    } else if (!place.water_is_out) {
        place.water_out_since = effect.day;
    }
    place.water_is_out = fact.out;
    return {};
}

Applied PaperWetted::apply(const PaperWetted& fact, const Effect& effect) {
    const auto enclosure = find_enclosure(fact.enclosure, effect);
    if (!enclosure) return base::fail(enclosure.error());
    (*enclosure)->wetted.push_back({effect.day, effect.entry});
    return {};
}

Applied EnclosureStands::check(const EnclosureStands& fact) {
    return first_failure(
        {check_needed_text("rack", fact.rack), check_label("rack", fact.rack), check_amounts(fact)});
}

Applied EnclosureStands::check_amounts(const EnclosureStands& fact) {
    return first_failure({check_count("level", fact.level), check_count("position", fact.position)});
}

Applied EnclosureStands::apply(const EnclosureStands& fact, const Effect& effect) {
    const auto enclosure = find_enclosure(fact.enclosure, effect);
    if (!enclosure) return base::fail(enclosure.error());
    (*enclosure)->stand = Stand{on_one_line(fact.rack), fact.level, fact.position};
    return {};
}

}  // namespace mitefall::records
