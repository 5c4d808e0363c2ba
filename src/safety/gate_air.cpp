#include <algorithm>
#include <map>

#include "safety/gates.h"
#include "safety/methods.h"

// Other life that shares the air of the room.
namespace mitefall::safety {
namespace {

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

statement::Names names_of(const std::vector<Sharer>& sharers) {
    statement::Names names;
    for (const Sharer& sharer : sharers) names.push_back({sharer.animal.text(), sharer.name});
    return names;
}

void warn_of_adjoining(const Case& with, const records::RoomId& room, Findings& findings) {
    const auto found = with.collection.rooms.find(room);
    if (found == with.collection.rooms.end()) return;
    for (const records::RoomId& adjoining : found->second.adjoining) {
        const auto air = with.survey.air.find(adjoining);
        if (air == with.survey.air.end()) continue;
        const auto poisoned = those(air->second, is_poisoned_by_ivermectin_in_air);
        if (!poisoned.empty()) heed(findings.cautions, with.tables, says::next_door(names_of(poisoned)));
    }
}

Heed heed_of(TaxonGroup group, const std::vector<Sharer>& members, records::Method method) {
    const bool is_permethrin = agent_of(method) == Agent::pyrethroid;
    const statement::Names who = names_of(members);
    if (group == TaxonGroup::dog && agent_of(method) == Agent::ivermectin)
        return says::dog_near_ivermectin(who);
    if (group == TaxonGroup::cat && is_permethrin) return says::cat_near_permethrin(who);
    if (group == TaxonGroup::fish || group == TaxonGroup::amphibian || group == TaxonGroup::invertebrate)
        return says::traces_kill(who);
    return says::keep_out(who);
}

void warn_of_company(const Case& with, const std::vector<Sharer>& sharers, records::Method method,
                     Findings& findings) {
    std::map<TaxonGroup, std::vector<Sharer>> by_group;
    for (const Sharer& sharer : sharers) {
        if (sharer.taxon) by_group[sharer.taxon->group].push_back(sharer);
    }
    for (const auto& [group, members] : by_group) {
        heed(findings.cautions, with.tables, heed_of(group, members, method));
    }
}

void warn_of_dust_in_air(const Case& with, const records::RoomId& room, Findings& findings) {
    const auto frail = those(sharers_of(with.survey, room), [](const Sharer& sharer) {
        return !sharer.taxon || sharer.taxon->group == TaxonGroup::invertebrate ||
               sharer.taxon->group == TaxonGroup::amphibian || sharer.taxon->group == TaxonGroup::bird;
    });
    if (!frail.empty()) heed(findings.cautions, with.tables, says::out_of_dust(names_of(frail)));
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
        if (!unknown.empty()) heed(findings.cautions, with.tables, says::keep_out_unknown(names_of(unknown)));
        return;
    }
    if (!unknown.empty())
        refuse(findings, with.tables, says::air_of_unknown(names_of(unknown)), says::name_the_species());
    const auto poisoned = those(sharers, is_poisoned_by_ivermectin_in_air);
    if (!poisoned.empty()) {
        refuse(findings, with.tables,
               says::shares_air(names_of(poisoned), term(poisoned.front().taxon->group)),
               says::move_to_another_room(names_of(poisoned)));
    }
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
    for (Reason reason : verdict.reasons) {
        if (reason.ruling == Ruling::bedding_only) continue;
        reason.what = says::wet_housemate.kind(named(mate), {reason.what});
        reason.remedy = says::house_apart(named(mate));
        reason.beyond_direction = true;
        findings.reasons.push_back(std::move(reason));
    }
}

}  // namespace

void check_housemates(const Question& question, Findings& findings) {
    if (!is_on_animal_acaricide(question.request.method)) return;
    const auto inside = question.with.survey.inside.find(question.animal.enclosure);
    if (inside == question.with.survey.inside.end() || inside->second.size() < 2) return;
    heed(findings.cautions, question.with.tables,
         says::housemates(named(question.animal), static_cast<double>(inside->second.size())));
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
    refuse(findings, question.with.tables, says::room_is_lived_in(), says::empty_the_room(airing.value));
}

}  // namespace mitefall::safety
