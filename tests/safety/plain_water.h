#pragma once

#include <set>
#include <vector>

#include "records/collection.h"
#include "records/task_key.h"
#include "safety/plain_rules.h"

// The rules of water dish and wet paper told a second time, as sets of days, with the numbers written out: a
// dish is out for 3 days at most and 9 of a course, paper is wet on 14 days of a course at most, a course is
// 60 days.
namespace mitefall::safety::plain {

using DaySet = std::set<units::Day>;

/// Days up to `today` on which the dish was out.
inline DaySet dish_out_on_record(const records::Enclosure& e, units::Day today) {
    DaySet days;
    const auto note = [&](units::Day from, units::Day end) {
        for (units::Day d = from; d < end; d += units::Days(1)) days.insert(d);
    };
    for (const records::DrySpell& spell : e.dry_spells) note(spell.out, spell.back);
    if (e.water_is_out) note(e.water_out_since.value_or(today - units::Days(3)), today + units::Days(1));
    return days;
}

/// The enclosures an animal lived in that day; those of the day of a move are two.
inline std::vector<records::EnclosureId> homes_on(const records::Animal& a, units::Day day) {
    if (a.stays.empty()) return {a.enclosure};
    std::vector<records::EnclosureId> homes;
    for (const records::Residence& stay : a.stays) {
        if (stay.from <= day && day <= stay.until.value_or(day)) homes.push_back(stay.enclosure);
    }
    return homes;
}

/// Days before `today` on which an animal had no dish in any enclosure it lived in.
inline DaySet without_dish(const records::Collection& c, const records::Animal& a) {
    DaySet days;
    for (units::Day d = c.day - units::Days(60); d < c.day; d += units::Days(1)) {
        const auto homes = homes_on(a, d);
        bool none = !homes.empty();
        for (const auto& home : homes) none &= dish_out_on_record(c.enclosures.at(home), c.day).contains(d);
        if (none) days.insert(d);
    }
    return days;
}

/// Days before `today` on which the paper was sprayed or wetted again.
inline DaySet damp_on_record(const records::Collection& c, const records::Enclosure& e) {
    DaySet days;
    for (const auto& given : e.treatments) {
        if (given.value.method == Method::spray_bedding) days.insert(given.day);
    }
    for (const auto& wetting : e.wetted) days.insert(wetting.day);
    std::erase_if(days, [&](units::Day d) { return d >= c.day || (c.day - d).count() >= 60; });
    return days;
}

/// Those of them on which the animal lived there, of all enclosures.
inline DaySet damp_under(const records::Collection& c, const records::Animal& a) {
    DaySet days;
    for (const auto& [id, place] : c.enclosures) {
        for (const units::Day d : damp_on_record(c, place)) {
            for (const auto& home : homes_on(a, d)) {
                if (home == id) days.insert(d);
            }
        }
    }
    return days;
}

/// How many days in a row the set holds around `day`.
inline int days_in_a_row(const DaySet& days, units::Day day) {
    int number = days.contains(day) ? 1 : 0;
    for (units::Day d = day - units::Days(1); days.contains(d); d -= units::Days(1)) ++number;
    for (units::Day d = day + units::Days(1); days.contains(d); d += units::Days(1)) ++number;
    return number;
}

inline DaySet both(DaySet a, const DaySet& b) {
    a.insert(b.begin(), b.end());
    return a;
}

/// What is wrong with these days to come, on which the enclosure or only its paper is wet; empty if nothing.
inline std::string wrong_with(const records::Collection& c, const records::Enclosure& e, const DaySet& wet,
                              const DaySet& damp) {
    if (wet.empty()) return {};
    for (const records::Animal* animal : c.animals_in(e.id)) {
        const DaySet dry = both(without_dish(c, *animal), wet);
        const std::string& who = animal->id.text();
        for (const units::Day day : wet) {
            if (days_in_a_row(dry, day) > 3) return who + " has no dish for more than 3 days on end";
        }
        if (dry.size() > 9) return who + " has no dish on more than 9 days";
        if (!damp.empty() && both(damp_under(c, *animal), damp).size() > 14)
            return who + " lies on wet paper on more than 14 days";
    }
    for (const records::Animal* animal : c.animals_in(e.id)) {
        for (const units::Day day : wet) {
            if (must_keep_its_dish(*animal, day)) return animal->id.text() + " must always be able to drink";
        }
    }
    return {};
}

}  // namespace mitefall::safety::plain
