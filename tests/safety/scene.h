#pragma once

#include <algorithm>
#include <string>

#include "evidence/tables.h"
#include "evidence/taxa.h"
#include "records/collection.h"
#include "safety/check.h"
#include "words/words.h"

// A small collection as plain data, and one sound animal in it.
namespace mitefall::safety {

inline const evidence::Tables& tables() {
    static const evidence::Tables loaded = evidence::Tables::load_embedded().value();
    return loaded;
}

inline const evidence::Taxa& taxa() {
    static const evidence::Taxa loaded = evidence::Taxa::load_embedded().value();
    return loaded;
}

inline units::Day today() { return units::parse_day("2026-03-10").value(); }
inline units::Days days(int number) { return units::Days(number); }
inline units::Strength mg_per_l(double x) { return units::milligrams_per_litre(x); }

struct Scene {
    records::Collection collection;
    records::FactId last_entry = 1;  ///< entries are numbered as they are told, like those of a journal

    Scene() {
        collection.day = today();
        add_room("room");
        add_room("other room");
        add_enclosure("tub", "room");
        add_animal("anna", "corn snake", "tub");
    }

    void add_room(const std::string& name) {
        records::Room room;
        room.id = records::RoomId(name);
        room.name = name;
        collection.rooms.emplace(room.id, room);
    }

    void add_enclosure(const std::string& name, const std::string& room) {
        records::Enclosure enclosure;
        enclosure.id = records::EnclosureId(name);
        enclosure.room = records::RoomId(room);
        collection.enclosures.emplace(enclosure.id, enclosure);
    }

    /// Sound, 500 g, weighed a day ago.
    records::Animal& add_animal(const std::string& name, const std::string& taxon,
                                const std::string& enclosure) {
        records::Animal animal;
        animal.id = records::AnimalId(name);
        animal.taxon = taxon;
        animal.enclosure = records::EnclosureId(enclosure);
        animal.weight = {today() - days(1), 1, units::grams(500)};
        return collection.animals.insert_or_assign(animal.id, animal).first->second;
    }

    void add_bystander(const std::string& taxon, const std::string& room) {
        collection.bystanders.push_back({"visitor", taxon, records::RoomId(room)});
    }

    records::Animal& anna() { return collection.animals.at(records::AnimalId("anna")); }

    void note(records::Condition condition, const std::string& agent = {}, int days_ago = 2) {
        anna().conditions.push_back(
            {today() - days(days_ago), ++last_entry, {anna().id, condition, true, agent, {}}});
    }
    void direct(records::Method method, int days_ago = 1, double up_to = 0, int treatments = 0) {
        records::VetDirection direction{anna().id, method, "Dr. A", "as agreed"};
        direction.strength = mg_per_l(up_to);
        direction.treatments = treatments;
        anna().directions.push_back({today() - days(days_ago), ++last_entry, std::move(direction)});
    }
    void wet_again(int days_ago) {
        collection.enclosures.at(anna().enclosure).wetted.push_back({today() - days(days_ago), ++last_entry});
    }
    void acknowledge(double strength, int days_ago = 0) {
        anna().acknowledged.push_back({today() - days(days_ago), ++last_entry, mg_per_l(strength)});
    }
    void treated(records::Method method, int days_ago) {
        anna().treatments.push_back(
            {today() - days(days_ago), ++last_entry, {anna().enclosure, {anna().id}, method, mg_per_l(10)}});
    }
    void weigh(double grams, int days_ago = 1) {
        anna().weight = {today() - days(days_ago), ++last_entry, units::grams(grams)};
    }

    [[nodiscard]] Verdict ask(records::Method method, units::Strength strength = mg_per_l(10),
                              const CourseSoFar& course = {}, units::Day day = today()) {
        return judge(collection, anna(), method, strength, day, tables(), taxa(), course);
    }
};

inline bool reasons_with(const Verdict& verdict, const std::string& text) {
    return std::any_of(verdict.reasons.begin(), verdict.reasons.end(),
                       [&](const Reason& r) { return words::say(r.what).find(text) != std::string::npos; });
}

inline bool warns(const Verdict& verdict, const std::string& text) {
    return std::any_of(verdict.cautions.begin(), verdict.cautions.end(),
                       [&](const Caution& c) { return words::say(c.what).find(text) != std::string::npos; });
}

}  // namespace mitefall::safety
