#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "safety/gates.h"
#include "safety/methods.h"
#include "units/text.h"

// Other life that shares the air of the room.
namespace mitefall::safety {
namespace {

using evidence::Tag;
using evidence::TaxonGroup;

bool is_poisoned_by_ivermectin_in_air(const Sharer& sharer) {
    return sharer.taxon &&
           (sharer.taxon->group == TaxonGroup::chelonian || sharer.taxon->group == TaxonGroup::crocodilian);
}

template <class Test>
std::vector<Sharer> those(const std::vector<Sharer>& sharers, Test test) {
    std::vector<Sharer> found;
    std::copy_if(sharers.begin(), sharers.end(), std::back_inserter(found), test);
    return found;
}

/// "Anna, Berta, Carla and 4 more".
std::string list_names(const std::vector<Sharer>& sharers) {
    constexpr std::size_t shown = 3;
    std::string names;
    for (std::size_t i = 0; i < std::min(shown, sharers.size()); ++i) {
        names += (i == 0 ? "" : ", ") + (sharers[i].name.empty() ? "one without a name" : sharers[i].name);
    }
    return sharers.size() > shown ? fmt::format("{} and {} more", names, sharers.size() - shown) : names;
}

/// Says something of these; those outside the collection have no id.
Caution caution_of(const std::vector<Sharer>& sharers, const std::string& text, const Basis& basis) {
    Caution told = caution(list_names(sharers) + text, basis);
    for (const Sharer& sharer : sharers) {
        if (!sharer.animal.empty()) told.animals.push_back(sharer.animal);
    }
    return told;
}

void refuse_poisoned(const Case& with, const std::vector<Sharer>& poisoned, Findings& findings) {
    findings.reasons.push_back(against(
        Ruling::never,
        fmt::format(
            "{} ({}) shares the air: no ivermectin is sprayed where a tortoise, turtle or crocodilian "
            "breathes",
            list_names(poisoned), describe(poisoned.front().taxon->group)),
        published(with.tables, "teare-bush-1983", Tag::read),
        fmt::format("move {} to another room first and record it", list_names(poisoned))));
}

void refuse_unknown(const std::vector<Sharer>& unknown, Findings& findings) {
    findings.reasons.push_back(missing_fact(
        fmt::format("{} shares the air and its species is not known: it may be one that ivermectin kills",
                    list_names(unknown)),
        our_assumption(), "enter the species"));
}

void warn_of_adjoining(const Case& with, const records::RoomId& room, Findings& findings) {
    const auto found = with.collection.rooms.find(room);
    if (found == with.collection.rooms.end()) return;
    for (const records::RoomId& adjoining : found->second.adjoining) {
        const auto air = with.survey.air.find(adjoining);
        if (air == with.survey.air.end()) continue;
        const auto poisoned = those(air->second, is_poisoned_by_ivermectin_in_air);
        if (poisoned.empty()) continue;
        findings.cautions.push_back(
            caution_of(poisoned, " lives next door: keep the door shut and air the room to the outside",
                       our_assumption()));
    }
}

Caution company_caution(const Case& with, TaxonGroup group, const std::vector<Sharer>& members,
                        records::Method method) {
    const bool is_permethrin = agent_of(method) == Agent::pyrethroid;
    if (group == TaxonGroup::dog && agent_of(method) == Agent::ivermectin) {
        return caution_of(members,
                          ": keep the dog out until all is dry; dogs with the ABCB1 mutation are poisoned by "
                          "ivermectin from about 0.1 mg/kg on",
                          published(with.tables, "abcb1-dogs", Tag::memory));
    }
    if (group == TaxonGroup::cat && is_permethrin) {
        return caution_of(members, ": permethrin poisons cats; keep the cat out until all is dry and aired",
                          published(with.tables, "veterinary-handbook", Tag::memory));
    }
    if (group == TaxonGroup::fish || group == TaxonGroup::amphibian || group == TaxonGroup::invertebrate) {
        return caution_of(members,
                          ": traces kill them; move them out until all is dry and aired. Never stop the air "
                          "of an aquarium instead: fish suffocate. What cannot be moved: do not spray here",
                          published(with.tables, "veterinary-handbook", Tag::memory));
    }
    return caution_of(members, ": keep out of the room until all is dry and aired", practice());
}

void warn_of_company(const Case& with, const std::vector<Sharer>& sharers, records::Method method,
                     Findings& findings) {
    std::map<TaxonGroup, std::vector<Sharer>> by_group;
    for (const Sharer& sharer : sharers) {
        if (sharer.taxon) by_group[sharer.taxon->group].push_back(sharer);
    }
    for (const auto& [group, members] : by_group) {
        findings.cautions.push_back(company_caution(with, group, members, method));
    }
}

void warn_of_dust_in_air(const Case& with, const records::RoomId& room, Findings& findings) {
    const auto frail = those(sharers_of(with.survey, room), [](const Sharer& sharer) {
        return !sharer.taxon || sharer.taxon->group == TaxonGroup::invertebrate ||
               sharer.taxon->group == TaxonGroup::amphibian || sharer.taxon->group == TaxonGroup::bird;
    });
    if (frail.empty()) return;
    findings.cautions.push_back(
        caution_of(frail, ": move them out of the air of the dust, it kills or harms them", practice()));
}

}  // namespace

void check_air(const Case& with, const records::RoomId& room, records::Method method,
               const records::AnimalId& self, Findings& findings) {
    if (method == records::Method::desiccant_dust) return warn_of_dust_in_air(with, room, findings);
    const bool is_sprayed = is_ivermectin_spray(method) || agent_of(method) == Agent::pyrethroid;
    if (!is_sprayed) return;
    std::vector<Sharer> sharers = sharers_of(with.survey, room);
    std::erase_if(sharers, [&](const Sharer& s) { return !self.empty() && s.animal == self; });
    warn_of_company(with, sharers, method, findings);
    const auto unknown = those(sharers, [](const Sharer& s) { return !s.taxon; });
    if (!is_ivermectin_spray(method)) {
        if (!unknown.empty()) {
            findings.cautions.push_back(caution_of(
                unknown, ": of unknown species; keep out until all is dry and aired", our_assumption()));
        }
        return;
    }
    if (!unknown.empty()) refuse_unknown(unknown, findings);
    const auto poisoned = those(sharers, is_poisoned_by_ivermectin_in_air);
    if (!poisoned.empty()) refuse_poisoned(with, poisoned, findings);
    warn_of_adjoining(with, room, findings);
}

namespace {

/// What comes back wet from spraying wets those it lives with: what stands against the spray under them
/// stands against it on the animal.
void check_beside_wet(const Question& question, const records::Animal& mate, Findings& findings) {
    Request wet = question.request;
    wet.method = records::Method::spray_bedding;
    const Verdict verdict = judge(question.with, mate, wet, {});
    if (permits(verdict)) return;
    const std::string name = name_of_animal(mate);
    for (Reason reason : verdict.reasons) {
        if (reason.ruling == Ruling::bedding_only) continue;
        reason.text = fmt::format("{} shares its enclosure and may not lie where the spray is wet: {}", name,
                                  reason.text);
        reason.remedy = fmt::format("house {} apart first and record the move", name);
        reason.beyond_direction = true;
        findings.reasons.push_back(std::move(reason));
    }
}

}  // namespace

void check_housemates(const Question& question, Findings& findings) {
    if (!is_on_animal_acaricide(question.request.method)) return;
    const auto inside = question.with.survey.inside.find(question.animal.enclosure);
    if (inside == question.with.survey.inside.end() || inside->second.size() < 2) return;
    findings.cautions.push_back(about(
        question.animal,
        fmt::format("{} animals share its enclosure: keep it apart until it is dry, or treat all of them",
                    inside->second.size()),
        our_assumption()));
    if (question.request.method != records::Method::spray_animal) return;
    for (const records::AnimalId& id : inside->second) {
        if (id != question.animal.id)
            check_beside_wet(question, question.with.collection.animals.at(id), findings);
    }
}

/// Whoever is asked about lives in the room.
void check_room_is_empty(const Question& question, Findings& findings) {
    if (target_of(question.request.method) != Target::room) return;
    const auto airing = question.with.tables.time("pyrethroid_airing");
    Reason reason = against(
        Ruling::wait_until, "it lives in the room and would breathe what is put on floor, racks and walls",
        basis_of(airing),
        fmt::format(
            "carry every animal to another room and record the moves; treat; bring them back after {} "
            "hours, dry and aired",
            units::show_number(units::in_hours(airing.value), 3)));
    findings.reasons.push_back(std::move(reason));
}

}  // namespace mitefall::safety
