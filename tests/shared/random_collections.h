#pragma once

#include <rapidcheck.h>

#include <string>
#include <vector>

#include "safety/methods.h"
#include "safety/plain_rules.h"

// Random collections for property tests: one to three animals in three enclosures of two rooms.
namespace mitefall::safety {

inline records::Method any_method() {
    constexpr auto all = records::all_of<records::Method>();
    return *rc::gen::elementOf(std::vector<records::Method>(all.begin(), all.end()));
}

inline bool one_in(int n) { return *rc::gen::inRange(0, n) == 0; }

// Most of everything is sound, so that each single fault is often the only one, and limits are tried on both
// sides.
inline std::string any_taxon() {
    if (!one_in(4)) return "corn snake";
    std::vector<std::string> names;
    for (const auto& [name, kind] : plain::kinds()) names.push_back(name);
    return *rc::gen::elementOf(names);
}

/// Numbers of entries, so that each of two of one day is as likely to be the first.
inline records::FactId any_entry() { return *rc::gen::inRange(1, 100000); }

inline int any_distance() { return *rc::gen::element(0, 1, 2, 3, 4, 10, 20, 30, 58, 59, 60, 61); }

inline void add_any_condition(Scene& scene, records::Animal& animal) {
    const auto condition =
        *rc::gen::element(records::Condition::sick, records::Condition::thin, records::Condition::dehydrated,
                          records::Condition::neonate, records::Condition::gravid,
                          records::Condition::neurological, records::Condition::reacted);
    const auto agent = *rc::gen::element<std::string>("", "the blue bottle", "ivermectin", "Permethrin");
    const units::Day on = scene.collection.day - days(*rc::gen::element(0, 0, 1, 5, 13, 14, 40));
    animal.conditions.push_back({on, any_entry(), {animal.id, condition, true, agent, {}}});
}

inline void add_any_treatments(records::Animal& animal) {
    const int number = *rc::gen::inRange(0, 5);
    for (int i = 0; i < number; ++i) {
        const units::Day on = today() - days(any_distance());
        animal.treatments.push_back(
            {on, any_entry(), {animal.enclosure, {animal.id}, any_method(), mg_per_l(10)}});
    }
}

/// What was done to the enclosures, with nobody named.
inline void add_any_housework(Scene& scene) {
    for (auto& [id, enclosure] : scene.collection.enclosures) {
        if (one_in(15)) enclosure.eggs = records::Dated{today() - days(any_distance()), any_entry()};
        if (!one_in(4)) continue;
        const records::DatedValue<records::Treated> done{
            today() - days(any_distance()), any_entry(), {id, {}, any_method(), mg_per_l(10)}};
        enclosure.treatments.push_back(done);
        enclosure.substrate = *rc::gen::element(records::Substrate::paper, records::Substrate::loose);
        for (auto& [animal_id, animal] : scene.collection.animals) {
            if (animal.enclosure == id) animal.exposures.push_back(done);
        }
    }
}

/// The weights before the latest, and it.
inline void add_any_weighings(records::Animal& animal) {
    for (const int days_before : {90, 45, 20, 5}) {
        const double grams = *rc::gen::element(500.0, 200.0, 170.0, 150.0);
        if (one_in(3))
            animal.weighings.push_back(
                {animal.weight->day - days(days_before), any_entry(), units::grams(grams)});
    }
    animal.weighings.push_back(*animal.weight);
}

/// A strength and a number are named in some.
inline void add_any_direction(records::Animal& animal) {
    const units::Day on = today() - days(*rc::gen::inRange(-2, 30));
    records::VetDirection direction{animal.id, any_method(), "Dr. A", "as agreed"};
    direction.strength = mg_per_l(*rc::gen::element(0.0, 0.0, 10.0, 200.0, 300.0, 6000.0));
    direction.treatments = *rc::gen::element(0, 0, 1, 2, 3, 8);
    animal.directions.push_back({on, any_entry(), std::move(direction)});
}

/// It came from another enclosure, or was always there.
inline void add_any_stays(records::Animal& animal) {
    const units::Day moved = today() - days(any_distance());
    if (one_in(2)) {
        const auto before = *rc::gen::element<std::string>("tub", "vivarium", "far");
        animal.stays.push_back({records::EnclosureId(before), moved - days(30), any_entry(), moved});
    }
    animal.stays.push_back({animal.enclosure, moved, any_entry()});
}

/// Boundaries of the rests after meals on both sides, meals near 15 % of the body mass on neither.
inline void add_any_meals(records::Animal& animal) {
    for (int i = *rc::gen::inRange(1, 4); i > 0; --i) {
        const auto outcome =
            *rc::gen::element(records::MealOutcome::eaten, records::MealOutcome::eaten,
                              records::MealOutcome::refused, records::MealOutcome::regurgitated);
        const double grams = *rc::gen::element(0.0, 10.0, 90.0, 400.0);
        animal.meals.push_back({today() - days(*rc::gen::element(-1, 0, 1, 2, 3, 4, 5, 10, 11, 59, 60)),
                                any_entry(),
                                {animal.id, outcome, "", 0, units::grams(grams), one_in(8)}});
    }
}

inline void add_any_animal(Scene& scene, const std::string& name) {
    const auto enclosure = *rc::gen::element<std::string>("tub", "vivarium", "far");
    records::Animal& animal = scene.add_animal(name, any_taxon(), enclosure);
    animal.weight.reset();
    if (!one_in(9)) {
        const double grams = *rc::gen::element(500.0, 800.0, 1500.0, 200.0, 199.5, 160.0, 159.5, 0.0);
        animal.weight = {today() - days(*rc::gen::element(0, 1, 10, 30, 59, 60, 61, -1)), any_entry(),
                         units::grams(grams)};
        add_any_weighings(animal);
    }
    if (one_in(6)) {
        animal.shed = {today() - days(*rc::gen::element(0, 1, 2, 3, 7, 8, 12)), 1,
                       *rc::gen::element(records::ShedState::cloudy, records::ShedState::shed,
                                         records::ShedState::clear)};
        if (one_in(2)) animal.cloudy_since = animal.shed->day - days(*rc::gen::inRange(0, 12));
    }
    if (one_in(6)) add_any_condition(scene, animal);
    if (one_in(5)) add_any_meals(animal);
    if (one_in(4)) add_any_treatments(animal);
    if (one_in(2)) add_any_stays(animal);
    for (int i = *rc::gen::element(0, 1, 1, 3); i > 0; --i) add_any_direction(animal);
    if (one_in(2)) {
        animal.acknowledged.push_back({today() - days(*rc::gen::inRange(-2, 5)), any_entry(),
                                       mg_per_l(*rc::gen::element(12.0, 200.0, 400.0))});
    }
}

inline Scene any_scene() {
    Scene scene;
    scene.add_enclosure("vivarium", "room");
    scene.add_enclosure("far", "other room");
    scene.collection.animals.clear();
    const int number = *rc::gen::inRange(1, 4);
    for (int i = 0; i < number; ++i) add_any_animal(scene, "animal " + std::to_string(i));
    add_any_housework(scene);
    if (one_in(4)) scene.add_bystander(any_taxon(), *rc::gen::element<std::string>("", "room", "other room"));
    if (one_in(2)) scene.collection.acknowledged = mg_per_l(*rc::gen::element(12.0, 200.0));
    return scene;
}

}  // namespace mitefall::safety
