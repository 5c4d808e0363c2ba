#include <fmt/format.h>

#include "records/apply.h"
#include "records/limits.h"

namespace mitefall::records {
namespace {

/// "dry-heat, freeze, throw-away"
std::string list_of(const ThingMethods& methods) {
    std::string list;
    for (const ThingMethod method : methods)
        list += (list.empty() ? "" : ", ") + std::string(to_text(method));
    return list;
}

Applied check_suits(ThingKind what, ThingMethod method) {
    const ThingRow& row = row_of(what);
    if (row.may.contains(method)) return {};
    return refuse("this is not done with such a thing", fmt::format("{}: {}", row.name, to_text(method)),
                  list_of(row.may), "choose one of these");
}

base::Result<Thing*> find_thing(const ThingId& id, const Effect& effect) {
    auto& things = effect.collection().things;
    const auto found = things.find(id);
    if (found != things.end() && !found->second.gone) return &found->second;
    return base::fail({base::ErrorKind::not_found,
                       "there is no thing of this name",
                       id.text(),
                       "a thing is on record from the day it was kept to the day it went",
                       "check the spelling, or record first where it is kept",
                       {}});
}

bool is_elsewhere(const Thing& known, const ThingKept& fact) {
    return !known.gone &&
           (known.what != fact.what || known.enclosure != fact.enclosure || known.room != fact.room);
}

}  // namespace

Applied ThingKept::check(const ThingKept& fact) {
    if (fact.enclosure.empty() == fact.room.empty()) {
        return refuse("a thing is kept in one place", fact.thing.text(), "an enclosure or a room",
                      "name the one it stands in");
    }
    if (fact.by) {
        if (auto good = check_suits(fact.what, *fact.by); !good) return good;
    }
    return check_new_name("a thing", fact.thing.text());
}

Applied ThingKept::apply(const ThingKept& fact, const Effect& effect) {
    if (!fact.enclosure.empty()) {
        if (const auto place = find_enclosure(fact.enclosure, effect); !place)
            return base::fail(place.error());
    }
    if (!fact.room.empty()) {
        if (const auto place = find_room(fact.room, effect); !place) return base::fail(place.error());
    }
    auto& things = effect.collection().things;
    const auto known = things.find(fact.thing);
    if (known != things.end() && is_elsewhere(known->second, fact)) {
        return base::fail({base::ErrorKind::already_exists,
                           "the name is taken by another thing",
                           fact.thing.text(),
                           "every thing has a name of its own",
                           "choose another name, or record that the other is gone",
                           {}});
    }
    if (known != things.end() && !known->second.gone)
        known->second.by = fact.by;
    else
        things[fact.thing] = {fact.thing, fact.what, fact.enclosure, fact.room, fact.by, {}, {}};
    return {};
}

Applied ThingGone::apply(const ThingGone& fact, const Effect& effect) {
    const auto thing = find_thing(fact.thing, effect);
    if (!thing) return base::fail(thing.error());
    (*thing)->gone = effect.day;
    return {};
}

Applied ThingTreated::check(const ThingTreated& fact) { return check_strength(fact.strength); }

Applied ThingTreated::check_amounts(const ThingTreated& fact) { return check_strength(fact.strength); }

Applied ThingTreated::apply(const ThingTreated& fact, const Effect& effect) {
    const auto thing = find_thing(fact.thing, effect);
    if (!thing) return base::fail(thing.error());
    if (auto good = check_suits((*thing)->what, fact.method); !good) return good;
    (*thing)->treated.push_back(effect.dated(fact.method));
    if (fact.method == ThingMethod::throw_away) (*thing)->gone = effect.day;
    return {};
}

}  // namespace mitefall::records
