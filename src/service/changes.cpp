#include "service/changes.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <set>
#include <utility>

#include "plan/search.h"
#include "plan/tubs.h"
#include "safety/rules.h"
#include "service/wood_tubs.h"

namespace mitefall::service {
namespace {

using records::Animal;
using records::AnimalId;
using records::Enclosure;
using records::EnclosureId;
using records::Method;
using safety::Reason;
using safety::Ruling;
using statement::Names;

constexpr std::array tub_numbers{2, 8};  // clean tubs that are tried, as far as there is use for them

/// A name nobody has, for a place that is only supposed.
template <class Id, class Map>
Id new_name(const std::string& stem, const Map& taken) {
    Id id(stem);
    for (int i = 2; taken.contains(id); ++i) id = Id(stem + "-" + std::to_string(i));
    return id;
}

statement::Who who(const Animal& animal) { return {animal.id.text(), animal.name}; }

/// The animals and bystanders an argument of the statement names.
Names names_in(const statement::Statement& statement) {
    for (const statement::Argument& argument : statement.arguments) {
        if (const auto* const names = std::get_if<Names>(&argument.value)) return *names;
    }
    return {};
}

/// All of them into one clean tub, beside the place of the first or in `room`.
void move_to_a_tub(const records::Collection& today, const std::vector<AnimalId>& animals,
                   const std::string& stem, Change& change, const records::RoomId& room = {}) {
    const Enclosure& old = today.enclosures.at(today.animals.at(animals.front()).enclosure);
    records::EnclosureAdded tub = tub_beside(old, new_name<EnclosureId>(stem, today.enclosures));
    if (!room.empty()) tub.room = room;
    change.facts.emplace_back(tub);
    for (const AnimalId& animal : animals)
        change.facts.emplace_back(records::AnimalMoved{animal, tub.enclosure});
}

constexpr std::array drugs_by_mouth{Method::oral_afoxolaner, Method::oral_fluralaner};

/// Gathers what stands against the treatments of a plan, animal by animal.
class Obstacles {
  public:
    Obstacles(const plan::Setting& setting, const plan::Setting& with_wood)
        : setting_(setting), with_wood_(with_wood), today_(setting.with.collection) {
        for (const auto& [id, animal] : today_.animals) look_at(animal);
    }

    [[nodiscard]] std::vector<Change> changes() {
        std::vector<Change> all;
        const auto add = [&](Change change) {
            if (!change.facts.empty() || change.spare_tubs > 0) all.push_back(std::move(change));
        };
        for (Change& change : spare_tubs()) add(std::move(change));
        add(weigh());
        add(move_out());
        add(house_apart());
        add(empty_the_wood());
        add(direction());
        for (const Method drug : drugs_by_mouth) add(by_mouth(drug));
        return all;
    }

  private:
    /// Each verdict is asked once.
    void look_at(const Animal& animal) {
        const auto verdict_on = [&](Method method, units::Strength strength) {
            return safety::judge(setting_.with, animal, {method, strength, setting_.today}, {});
        };
        for (const Method method : {Method::spray_animal, Method::spray_bedding}) {
            const safety::Verdict verdict = verdict_on(method, setting_.strength);
            for (const Reason& reason : verdict.reasons) sort_out(animal, reason);
            if (method == Method::spray_animal && is_for_a_veterinarian(verdict))
                directed_.push_back(who(animal));
        }
        if (!is_only_against_wood(verdict_on(Method::fresh_tub, {}))) no_tub_.insert(animal.id);
        for (const Method drug : drugs_by_mouth) {
            if (verdict_on(drug, {}).ruling == Ruling::never) never_by_mouth_[drug].insert(animal.id);
        }
    }

    /// It may live in a tub, but for the wood of the enclosure it leaves.
    [[nodiscard]] static bool is_only_against_wood(const safety::Verdict& verdict) {
        return std::all_of(verdict.reasons.begin(), verdict.reasons.end(), [](const Reason& reason) {
            return reason.what.id == safety::says::wood_keeps_mites.kind.id;
        });
    }

    void sort_out(const Animal& animal, const Reason& reason) {
        using namespace safety::says;
        if (reason.remedy.id == weigh_it.id) add_once(who(animal), unweighed_);
        for (const statement::Who& one : names_in(reason.what)) {
            if (reason.what.id == shares_air.kind.id) add_once(one, in_the_air_);
            if (reason.what.id == wet_housemate.kind.id) add_once(one, housemates_);
        }
    }

    /// Nothing but what a veterinarian may direct on.
    [[nodiscard]] static bool is_for_a_veterinarian(const safety::Verdict& verdict) {
        return verdict.ruling == Ruling::ask_vet &&
               std::all_of(verdict.reasons.begin(), verdict.reasons.end(), [](const Reason& reason) {
                   return !reason.needs_fact && !reason.beyond_direction &&
                          reason.ruling != Ruling::wait_until;
               });
    }

    static void add_once(const statement::Who& one, Names& to) {
        if (std::find(to.begin(), to.end(), one) == to.end()) to.push_back(one);
    }

    /// As many as are tried, beyond those at hand and no more than there are places for.
    [[nodiscard]] std::vector<Change> spare_tubs() const {
        plan::PermitBook permits(with_wood_.with);
        const auto places =
            plan::places_for_tubs(plan::scopes_of(with_wood_).back(), with_wood_, permits).size();
        std::vector<Change> all;
        for (const int tried : tub_numbers) {
            const int number = std::min(tried, static_cast<int>(places));
            const bool is_more = number > (all.empty() ? setting_.limits.spare_tubs : all.back().spare_tubs);
            if (!is_more) continue;
            Change change{changes::have_spare_tubs(number)};
            change.spare_tubs = number;
            all.push_back(std::move(change));
        }
        return all;
    }

    /// As if each weighed just enough.
    [[nodiscard]] Change weigh() const {
        const units::Mass least = setting_.with.tables.mass("spray_min_body_mass").value;
        Change change{changes::weigh_them(unweighed_, least)};
        for (const statement::Who& one : unweighed_)
            change.facts.emplace_back(records::Weighed{AnimalId(one.id), least});
        return change;
    }

    /// Animals into a room of their own, other life out of the house.
    [[nodiscard]] Change move_out() const {
        Change change{changes::move_out_of_the_air(in_the_air_)};
        change.touches_mites = true;
        const auto room = new_name<records::RoomId>("another-room", today_.rooms);
        for (const statement::Who& one : in_the_air_) {
            if (one.id.empty()) continue;
            const Enclosure& old = today_.enclosures.at(today_.animals.at(AnimalId(one.id)).enclosure);
            if (change.facts.empty())
                change.facts.emplace_back(
                    records::RoomAdded{room, room.text(), today_.rooms.at(old.room).climate, {}, old.floor});
            move_to_a_tub(today_, {AnimalId(one.id)}, "away-" + one.id, change, room);
        }
        move_bystanders_out(change);
        return change;
    }

    /// Those with a name first: what is told by its kind alone takes all of the kind along that are left.
    void move_bystanders_out(Change& change) const {
        std::set<std::string> names, kinds;
        for (const statement::Who& one : in_the_air_) {
            if (!one.id.empty()) continue;
            for (const records::BystanderNoted& here : today_.bystanders) {
                if (here.name == one.name)
                    (here.name.empty() ? kinds : names).insert(here.name.empty() ? here.taxon : here.name);
            }
        }
        for (const std::string& name : names)
            change.facts.emplace_back(records::BystanderMoved{{name, {}, {}}});
        for (const std::string& kind : kinds)
            change.facts.emplace_back(records::BystanderMoved{{{}, kind, {}}});
    }

    [[nodiscard]] Change house_apart() const {
        Change change{changes::house_them_apart(housemates_)};
        change.touches_mites = true;
        for (const statement::Who& one : housemates_)
            move_to_a_tub(today_, {AnimalId(one.id)}, "apart-" + one.id, change);
        return change;
    }

    /// Of each wooden enclosure all animals, into one tub.
    [[nodiscard]] Change empty_the_wood() const {
        Names where;
        Change change;
        for (const auto& [id, animals] : setting_.with.survey.inside) {
            const Enclosure& enclosure = today_.enclosures.at(id);
            if (enclosure.material != records::Material::porous || !may_live_in_a_tub(animals)) continue;
            where.push_back({id.text(), enclosure.name});
            move_to_a_tub(today_, animals, "tub-for-" + id.text(), change);
        }
        change.what = changes::empty_the_wood_into_tubs(std::move(where));
        change.touches_mites = true;
        return change;
    }

    [[nodiscard]] bool may_live_in_a_tub(const std::vector<AnimalId>& animals) const {
        return std::none_of(animals.begin(), animals.end(),
                            [&](const AnimalId& id) { return no_tub_.contains(id); });
    }

    [[nodiscard]] Change direction() const {
        Change change{changes::direction_to_spray(directed_), Whose::veterinarian};
        for (const statement::Who& one : directed_) {
            for (const Method method : {Method::spray_animal, Method::spray_bedding})
                change.facts.emplace_back(records::VetDirection{AnimalId(one.id), method, "-", "-"});
        }
        return change;
    }

    /// Once, today, to every animal but those that never may have it.
    [[nodiscard]] Change by_mouth(Method drug) const {
        Change change;
        double number = 0;
        const auto never = never_by_mouth_.find(drug);
        for (const auto& [id, animals] : setting_.with.survey.inside) {
            records::Treated given{id, {}, drug, {}};
            std::copy_if(animals.begin(), animals.end(), std::back_inserter(given.animals),
                         [&](const AnimalId& animal) {
                             return never == never_by_mouth_.end() || !never->second.contains(animal);
                         });
            number += static_cast<double>(given.animals.size());
            if (!given.animals.empty()) change.facts.emplace_back(std::move(given));
        }
        change.what = changes::drug_by_mouth(safety::term(drug), number);
        change.whose = Whose::veterinarian;
        change.touches_mites = true;
        change.sources = {drug == Method::oral_afoxolaner ? "mendoza-roldan-2023" : "cattarossi-2026"};
        return change;
    }

    const plan::Setting& setting_;
    const plan::Setting& with_wood_;
    const records::Collection& today_;
    Names unweighed_, in_the_air_, housemates_, directed_;
    std::set<AnimalId> no_tub_;
    std::map<Method, std::set<AnimalId>> never_by_mouth_;
};

/// The animals a change moves.
std::set<AnimalId> moved_by(const Change& change) {
    std::set<AnimalId> moved;
    for (const records::Fact& fact : change.facts) {
        if (const auto* const move = std::get_if<records::AnimalMoved>(&fact)) moved.insert(move->animal);
    }
    return moved;
}

/// What `more` does as well; who is moved already stays there.
void join(const Change& more, Change& to) {
    const std::set<AnimalId> moved = moved_by(to);
    for (const records::Fact& fact : more.facts) {
        const auto* const move = std::get_if<records::AnimalMoved>(&fact);
        if (move == nullptr || !moved.contains(move->animal)) to.facts.push_back(fact);
    }
    to.spare_tubs = std::max(to.spare_tubs, more.spare_tubs);
    to.touches_mites |= more.touches_mites;
}

}  // namespace

std::vector<Change> possible_changes(const plan::Setting& setting, const plan::Setting& with_wood) {
    return Obstacles(setting, with_wood).changes();
}

Change emptying(const records::Collection& today, const EnclosureId& enclosure) {
    std::vector<AnimalId> animals;
    for (const auto& [id, animal] : today.animals) {
        if (animal.enclosure == enclosure) animals.push_back(id);
    }
    Change change;
    change.touches_mites = true;
    if (!animals.empty()) move_to_a_tub(today, animals, "tub-for-" + enclosure.text(), change);
    return change;
}

std::optional<Change> all_of_the_keepers(const std::vector<Change>& changes) {
    Change all;
    std::vector<statement::Statement> told;
    for (auto change = changes.begin(); change != changes.end(); ++change) {
        if (change->whose != Whose::keeper) continue;
        const auto next = std::next(change);
        const bool fewer_tubs = change->spare_tubs > 0 && next != changes.end() && next->spare_tubs > 0;
        if (fewer_tubs) continue;
        told.push_back(change->what);
        join(*change, all);
    }
    if (told.size() < 2) return std::nullopt;
    all.what = changes::all_of_these(std::move(told));
    return all;
}

std::shared_ptr<const Situation> with(const Change& change, const Situation& situation) {
    Situation::Journal journal = situation.journal();
    records::FactId id = situation.entry();
    for (const records::Fact& fact : change.facts)
        journal.push_back({++id, situation.today(), {}, fact, {}, false});
    return Situation::of(std::move(journal), situation.today(), situation.knowledge());
}

}  // namespace mitefall::service
