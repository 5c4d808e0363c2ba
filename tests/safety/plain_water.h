#pragma once

#include <set>

#include "records/collection.h"
#include "records/task_key.h"
#include "safety/plain_rules.h"

// The rules of water dish and wet paper told a second time, as sets of days, with the numbers written out: a
// dish is out for 3 days at most and 9 of a course, paper is wet on 14 days of a course at most, a course is
// 60 days.
namespace mitefall::safety::plain {

using DaySet = std::set<units::Day>;

/// Days before `today` on which the dish was out.
inline DaySet dry_on_record(const records::Enclosure& e, units::Day today) {
    DaySet days;
    const auto note = [&](units::Day from, units::Day end) {
        for (units::Day d = from; d < end; d += units::Days(1)) {
            if (d < today && (today - d).count() <= 60) days.insert(d);
        }
    };
    for (const records::DrySpell& spell : e.dry_spells) note(spell.out, spell.back);
    if (e.water_is_out) note(e.water_out_since.value_or(today - units::Days(3)), today);
    return days;
}

/// Days before `today` on which the paper was sprayed or wetted again.
inline DaySet damp_on_record(const records::Collection& c, const records::Enclosure& e) {
    DaySet days;
    for (const auto& given : e.treatments) {
        if (given.value.method == Method::spray_bedding) days.insert(given.day);
    }
    for (const auto& [key, done] : c.done) {
        if (key.find("/redampen/" + e.id.text()) != std::string::npos) days.insert(done.day);
    }
    std::erase_if(days, [&](units::Day d) { return d >= c.day || (c.day - d).count() >= 60; });
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
    const DaySet dry = both(dry_on_record(e, c.day), wet);
    for (const units::Day day : wet) {
        if (days_in_a_row(dry, day) > 3) return "the dish is out for more than 3 days on end";
    }
    if (dry.size() > 9) return "the dish is out on more than 9 days";
    if (!damp.empty() && both(damp_on_record(c, e), damp).size() > 14)
        return "the paper is wet on more than 14 days";
    for (const records::Animal* animal : c.animals_in(e.id)) {
        for (const units::Day day : wet) {
            if (must_keep_its_dish(*animal, day)) return animal->id.text() + " must always be able to drink";
        }
    }
    return {};
}

}  // namespace mitefall::safety::plain
