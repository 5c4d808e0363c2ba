#include "formats/json/collection.h"

#include <algorithm>
#include <iterator>

#include "formats/json/facts.h"
#include "formats/json/parts.h"
#include "safety/deaths.h"

namespace mitefall::formats {
namespace {

/// The fields of a fact, after the day it is about and its number in the journal.
template <class T>
Json dated_fact(const records::DatedValue<T>& dated) {
    Json json{{"day", date(dated.day)}, {"entry", dated.entry}};
    json.update(fact_json(dated.value));
    return json;
}

template <class T>
Json dated_facts(const std::vector<records::DatedValue<T>>& facts) {
    return list(facts, dated_fact<T>);
}

Json room_json(const records::Room& room) {
    return fact_json(records::RoomAdded{room.id, room.name, room.climate, room.adjoining, room.floor});
}

Json enclosure_json(const records::Enclosure& e) {
    Json json =
        fact_json(records::EnclosureAdded{e.id, e.name, e.room, e.material, e.substrate, e.climate, e.floor});
    json["water_is_out"] = e.water_is_out;
    json["water_out_since"] = date(e.water_out_since);
    json["eggs_since"] = e.eggs ? date(e.eggs->day) : Json(nullptr);
    json["stand"] =
        e.stand ? Json{{"rack", e.stand->rack}, {"level", e.stand->level}, {"position", e.stand->position}}
                : Json(nullptr);
    return json;
}

Json weight_json(const std::optional<records::DatedValue<units::Mass>>& weight) {
    if (!weight) return nullptr;
    return {{"day", date(weight->day)},
            {"entry", weight->entry},
            {"mass_g", number(units::in_grams(weight->value))}};
}

Json shed_json(const std::optional<records::DatedValue<records::ShedState>>& shed) {
    if (!shed) return nullptr;
    return {{"day", date(shed->day)}, {"entry", shed->entry}, {"state", records::to_text(shed->value)}};
}

Json acknowledgement_json(const records::DatedValue<units::Strength>& one) {
    return {{"day", date(one.day)}, {"entry", one.entry}, {"strength_mg_per_l", strength_or_null(one.value)}};
}

/// What was done to its enclosure around it: not what it was given itself, which is told apart.
std::vector<records::DatedValue<records::Treated>> around(const records::Animal& animal) {
    std::vector<records::DatedValue<records::Treated>> treatments;
    std::copy_if(animal.exposures.begin(), animal.exposures.end(), std::back_inserter(treatments),
                 [&](const auto& one) {
                     const auto& animals = one.value.animals;
                     return std::find(animals.begin(), animals.end(), animal.id) == animals.end();
                 });
    return treatments;
}

Json sign_json(const records::DatedValue<records::Sign>& sign) {
    return {{"day", date(sign.day)}, {"entry", sign.entry}, {"sign", records::to_text(sign.value)}};
}

Json unknown_json(const records::DatedValue<records::AskedState>& open) {
    return {{"day", date(open.day)}, {"entry", open.entry}, {"state", records::to_text(open.value)}};
}

Json death_json(const records::Death& death, const std::vector<records::AnimalId>& company) {
    const records::Animal& animal = death.died.value;
    return {{"animal", name(animal.id)},
            {"name", animal.name},
            {"day", date(death.died.day)},
            {"entry", death.died.entry},
            {"enclosure", name(animal.enclosure)},
            {"answered", death.answered.has_value()},
            {"company", names(company)}};
}

Json animal_json(const records::Animal& animal, bool asks_for_signs) {
    Json json = fact_json(records::AnimalArrived{animal.id, animal.name, animal.taxon, animal.origin,
                                                 animal.enclosure, animal.quarantine});
    json["arrived"] = date(animal.arrived);
    json["weight"] = weight_json(animal.weight);
    json["shed"] = shed_json(animal.shed);
    json["conditions"] = dated_facts(animal.conditions);
    json["unknown"] = list(animal.unknown, unknown_json);
    json["signs"] = list(animal.signs, sign_json);
    json["asks_for_signs"] = asks_for_signs;
    json["treatments"] = dated_facts(animal.treatments);
    json["enclosure_treatments"] = dated_facts(around(animal));
    json["directions"] = dated_facts(animal.directions);
    json["acknowledged"] = list(animal.acknowledged, acknowledgement_json);
    return json;
}

Json things_json(const records::Collection& collection) {
    Json all = Json::array();
    for (const auto& [id, thing] : collection.things) {
        if (thing.gone) continue;
        const records::ThingMethods& may = records::row_of(thing.what).may;
        Json json = fact_json(records::ThingKept{id, thing.what, thing.enclosure, thing.room, thing.by});
        json["by"] = records::to_text(thing.by.value_or(may.usual()));
        json["may"] = list(may, [](records::ThingMethod method) { return records::to_text(method); });
        json["treated"] = thing.treated.empty()
                              ? Json(nullptr)
                              : Json{{"day", date(thing.treated.back().day)},
                                     {"method", records::to_text(thing.treated.back().value)}};
        all.push_back(std::move(json));
    }
    return all;
}

Json batch_json(const records::BatchOnRecord& batch) {
    Json json = dated_fact(batch.made);
    json["discarded_on"] = batch.discarded ? date(batch.discarded->day) : Json(nullptr);
    return json;
}

/// Those to mix from.
Json stocks_json(const records::Collection& collection) {
    Json all = Json::array();
    for (const auto& [id, stock] : collection.stocks) {
        if (!stock.gone) all.push_back(dated_fact(stock.kept));
    }
    return all;
}

template <class Map, class F>
Json values(const Map& map, F each) {
    return list(map, [&](const auto& pair) { return each(pair.second); });
}

}  // namespace

Json batches_json(const records::Collection& collection) {
    return {{"batches", values(collection.batches, batch_json)}};
}

Json collection_json(const records::Collection& collection, const evidence::Tables& tables) {
    Json json{{"day", date(collection.day)}};
    json["rooms"] = values(collection.rooms, room_json);
    json["enclosures"] = values(collection.enclosures, enclosure_json);
    json["animals"] = values(collection.animals, [&](const records::Animal& animal) {
        return animal_json(animal, collection.asks_for_signs(animal));
    });
    json["deaths"] = list(collection.deaths, [&](const records::Death& death) {
        return death_json(death, safety::company_of(death, collection, tables));
    });
    json["bystanders"] =
        list(collection.bystanders, [](const auto& bystander) { return fact_json(bystander); });
    json["bystanders_away"] = dated_facts(collection.bystanders_away);
    json["things"] = things_json(collection);
    json["sightings"] = dated_facts(collection.sightings);
    json["plan"] = collection.plan ? dated_fact(*collection.plan) : Json(nullptr);
    json["trap_routine"] = collection.trap_routine ? dated_fact(*collection.trap_routine) : Json(nullptr);
    json["veterinarian"] = collection.veterinarian ? dated_fact(*collection.veterinarian) : Json(nullptr);
    json["acknowledged_mg_per_l"] =
        collection.acknowledged ? strength_or_null(*collection.acknowledged) : Json(nullptr);
    json["done"] = values(collection.done, dated_fact<records::TaskDone>);
    json["stocks"] = stocks_json(collection);
    json["batches"] = values(collection.batches, batch_json);
    json["skipped"] = values(collection.skipped, dated_fact<records::TaskSkipped>);
    return json;
}

}  // namespace mitefall::formats
