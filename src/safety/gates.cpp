#include "safety/gates.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <utility>

#include "base/contract.h"
#include "safety/wet_book.h"

namespace mitefall::safety {

Reason& refuse(Findings& findings, const evidence::Tables& tables, Against against,
               statement::Statement remedy) {
    return findings.reasons.emplace_back(reason_of(std::move(against), tables, std::move(remedy)));
}

Reason& wait(Findings& findings, const evidence::Tables& tables, Against against, units::Day until) {
    Reason& reason = refuse(findings, tables, std::move(against), says::go_on_from(until));
    reason.until = until;
    return reason;
}

Caution& heed(std::vector<Caution>& cautions, const evidence::Tables& tables, Heed heed) {
    auto [source, tag] = look_up(heed.origin, tables);
    Caution& caution = cautions.emplace_back();
    for (const std::string& id : statement::ids_in(heed.what)) caution.animals.emplace_back(id);
    caution.what = std::move(heed.what);
    caution.source = std::move(source);
    caution.tag = tag;
    return caution;
}

double days_apart(units::Day a, units::Day b) { return static_cast<double>(std::abs((a - b).count())); }

units::Day first_day_apart(const std::vector<units::Day>& others, units::Day day, units::TimeSpan distance) {
    const units::Days step(std::lround(std::ceil(units::in_days(distance))));
    for (const units::Day other : others) {
        if (days_apart(day, other) < units::in_days(distance)) day = other + step;
    }
    return day;
}

namespace {

constexpr auto key(const records::Dated& dated) { return std::pair(dated.day, dated.entry); }

/// The days on which the animal lived where the paper may have been wet with spray.
void add_wet_paper(const Case& with, const records::Animal& animal, std::vector<Told>& all) {
    for (const LainOn& paper : paper_under(with.collection, animal, with.wet)) {
        for (units::Day day = paper.from; day < paper.end; day += units::Days(1))
            all.push_back(
                {records::Method::spray_bedding, {day, paper.known.entry}, false, paper.known, true});
    }
}

}  // namespace

std::vector<Told> told_about(const Case& with, const records::Animal& animal,
                             std::span<const Application> proposed) {
    // What was done on a day is one thing in however many entries it is told, known for good since the last;
    // one entry may stand in both lists, too: bedding sprayed with the animals named.
    std::map<std::pair<records::Method, units::Day>, records::FactId> given;
    for (const auto* const list : {&animal.treatments, &animal.exposures}) {
        for (const auto& one : *list) {
            records::FactId& entry = given[{one.value.method, one.day}];
            entry = std::max(entry, one.entry);
        }
    }
    std::vector<Told> all;
    add_wet_paper(with, animal, all);
    for (const auto& [what, entry] : given) all.push_back({what.first, {what.second, entry}});
    for (const Application& one : proposed) all.push_back({one.method, {one.day, 0}, true});
    return all;
}

void rest_on(Reason& reason, std::span<const Told> grounds) {
    for (const Told& ground : grounds) {
        reason.beyond_direction |= ground.is_proposed;
        const records::Dated known = ground.known.value_or(ground.when);
        if (!reason.since || key(*reason.since) < key(known)) reason.since = known;
    }
}

std::string name_of_animal(const records::Animal& animal) {
    return animal.name.empty() ? animal.id.text() : animal.name;
}

}  // namespace mitefall::safety
