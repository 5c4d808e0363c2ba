#include "safety/gates.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <utility>

#include "base/contract.h"
#include "safety/wet_book.h"
#include "units/text.h"

namespace mitefall::safety {

using evidence::Tag;

Basis practice() { return {{}, Tag::common_practice}; }
Basis our_assumption() { return {{}, Tag::assumption}; }

Basis published(const evidence::Tables& tables, std::string_view source_key, Tag tag) {
    const auto found = tables.sources().find(source_key);
    base::expects(found != tables.sources().end(),
                  "evidence has no source \"" + std::string(source_key) + "\"");
    return {found->second, tag};
}

Reason against(Ruling ruling, std::string text, const Basis& basis, std::string remedy) {
    return {ruling, std::move(text), basis.source, basis.tag, std::nullopt, std::move(remedy), false};
}

Reason missing_fact(std::string text, const Basis& basis, std::string remedy) {
    return {Ruling::ask_vet, std::move(text), basis.source, basis.tag, std::nullopt, std::move(remedy), true};
}

std::string days_text(const evidence::Cited<units::TimeSpan>& row) {
    return units::show_number(units::in_days(row.value), 3) + " days";
}

double days_apart(units::Day a, units::Day b) { return static_cast<double>(std::abs((a - b).count())); }

units::Day first_day_apart(const std::vector<units::Day>& others, units::Day day, units::TimeSpan distance) {
    const units::Days step(std::lround(std::ceil(units::in_days(distance))));
    for (const units::Day other : others) {
        if (days_apart(day, other) < units::in_days(distance)) day = other + step;
    }
    return day;
}

Reason wait(std::string text, units::Day until, const Basis& basis) {
    Reason reason =
        against(Ruling::wait_until, std::move(text), basis, "go on from " + units::show_day(until));
    reason.until = until;
    return reason;
}

namespace {

constexpr auto key(const records::Dated& dated) { return std::pair(dated.day, dated.entry); }

/// The days on which the animal lived where the paper may have been wet with spray.
void add_wet_paper(const Question& question, std::vector<Told>& all) {
    const WetLimits limits = wet_limits(question.with.tables);
    for (const LainOn& paper : paper_under(question.with.collection, question.animal, limits)) {
        for (units::Day day = paper.from; day < paper.end; day += units::Days(1))
            all.push_back(
                {records::Method::spray_bedding, {day, paper.known.entry}, false, paper.known, true});
    }
}

}  // namespace

std::vector<Told> told_about(const Question& question) {
    // What was done on a day is one thing in however many entries it is told, known for good since the last;
    // one entry may stand in both lists, too: bedding sprayed with the animals named.
    std::map<std::pair<records::Method, units::Day>, records::FactId> given;
    for (const auto* const list : {&question.animal.treatments, &question.animal.exposures}) {
        for (const auto& one : *list) {
            records::FactId& entry = given[{one.value.method, one.day}];
            entry = std::max(entry, one.entry);
        }
    }
    std::vector<Told> all;
    add_wet_paper(question, all);
    for (const auto& [what, entry] : given) all.push_back({what.first, {what.second, entry}});
    for (const Application& one : question.proposed) all.push_back({one.method, {one.day, 0}, true});
    return all;
}

void rest_on(Reason& reason, std::span<const Told> grounds) {
    for (const Told& ground : grounds) {
        reason.beyond_direction |= ground.is_proposed;
        const records::Dated known = ground.known.value_or(ground.when);
        if (!reason.since || key(*reason.since) < key(known)) reason.since = known;
    }
}

Caution caution(std::string text, const Basis& basis) {
    return {std::move(text), basis.source, basis.tag, {}};
}

std::string name_of_animal(const records::Animal& animal) {
    return animal.name.empty() ? animal.id.text() : animal.name;
}

Caution about(const records::Animal& animal, std::string text, const Basis& basis) {
    return {name_of_animal(animal) + ": " + text, basis.source, basis.tag, {animal.id}};
}

}  // namespace mitefall::safety
