#include "words/undo.h"

#include <fmt/format.h>

#include <algorithm>

#include "records/limits.h"
#include "records/task_key.h"
#include "units/day.h"
#include "units/text.h"

namespace mitefall::words {
namespace {

using records::AnimalId;
using records::BatchId;
using records::Collection;
using records::EnclosureId;
using records::Entry;
using records::RoomId;

/// Of more the number is told: nobody reads a longer list (assumption).
constexpr std::size_t named_animals = 3;

/// "1 animal", "2 animals"
std::string count_of(std::size_t count, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

/// "a, b and c"
std::string joined(const std::vector<std::string>& parts) {
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i)
        text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
    return text;
}

/// What somebody did or saw, in the past tense and without an amount.
class Deed {
  public:
    explicit Deed(const Collection& names) : names_(names) {}

    std::string operator()(const records::RoomAdded& f) const { return "added the room " + f.name; }
    std::string operator()(const records::EnclosureAdded& f) const { return "added " + f.name; }
    std::string operator()(const records::AnimalArrived& f) const { return f.name + " arrived"; }
    std::string operator()(const records::BystanderNoted& f) const {
        return "noted " + (f.name.empty() ? f.taxon : f.name);
    }
    std::string operator()(const records::BystanderMoved& f) const {
        return fmt::format("{} {}", f.who.name.empty() ? f.who.taxon : f.who.name,
                           f.out ? "moved out" : "is back");
    }
    std::string operator()(const records::AnimalMoved& f) const {
        return fmt::format("moved {} to {}", name(f.animal), name(f.to));
    }
    std::string operator()(const records::AnimalLeft& f) const { return name(f.animal) + " left"; }
    std::string operator()(const records::Handled& f) const { return "handled " + names(f.animals); }
    std::string operator()(const records::ItemShared& f) const {
        return fmt::format("used {} in {} and then in {}", f.item, name(f.from), name(f.to));
    }
    std::string operator()(const records::OutsideContact& f) const {
        return fmt::format("noted contact with the outside: {}", records::to_text(f.what));
    }
    std::string operator()(const records::ThingKept& f) const {
        return fmt::format("noted a {}", records::row_of(f.what).name);
    }
    std::string operator()(const records::ThingGone& f) const {
        return fmt::format("noted that {} is gone", f.thing.text());
    }
    std::string operator()(const records::ThingTreated& f) const {
        return fmt::format("freed {} of mites ({})", f.thing.text(), records::to_text(f.method));
    }
    std::string operator()(const records::Weighed& f) const { return "weighed " + name(f.animal); }
    std::string operator()(const records::MealNoted& f) const {
        return fmt::format("noted a meal of {}: {}", name(f.animal), records::to_text(f.outcome));
    }
    std::string operator()(const records::EggsNoted& f) const {
        return fmt::format("noted that {} {}", name(f.enclosure),
                           f.present ? "has eggs" : "has no eggs any more");
    }
    std::string operator()(const records::ShedSeen& f) const {
        return fmt::format("saw that {} is {}", name(f.animal), records::to_text(f.state));
    }
    std::string operator()(const records::ConditionNoted& f) const {
        return fmt::format("noted that {} is {}{}", name(f.animal), f.present ? "" : "no longer ",
                           records::to_text(f.condition));
    }
    std::string operator()(const records::StateAsked& f) const {
        return fmt::format("asked about {}: {}", name(f.animal),
                           f.unknown.empty() ? "no to all that was asked" : "not all of it is known");
    }
    std::string operator()(const records::SignsNoted& f) const {
        return fmt::format("looked {} over for signs of illness: {}{}", name(f.animal),
                           f.seen.empty() ? "none seen" : signs(f.seen),
                           f.gone.empty() ? "" : "; gone: " + signs(f.gone));
    }
    std::string operator()(const records::DeathAnswered& f) const {
        return "said that treatment goes on after the death of " + name(f.animal);
    }
    std::string operator()(const records::Sighted& f) const { return "saw mites in " + name(f.enclosure); }
    std::string operator()(const records::Checked& f) const {
        return fmt::format("looked for mites in {}, {} found", name(f.enclosure), records::to_text(f.count));
    }
    std::string operator()(const records::Treated& f) const {
        return fmt::format("treated {}: {}", f.animals.empty() ? name(f.enclosure) : names(f.animals),
                           records::describe(f.method));
    }
    std::string operator()(const records::SubstrateChanged& f) const {
        return "changed the substrate of " + name(f.enclosure);
    }
    std::string operator()(const records::PaperWetted& f) const {
        return "wetted the paper of " + name(f.enclosure) + " again";
    }
    std::string operator()(const records::EnclosureStands& f) const {
        return fmt::format("put {} at {}, level {}, position {}", name(f.enclosure), f.rack, f.level,
                           f.position);
    }
    std::string operator()(const records::WaterMoved& f) const {
        return fmt::format("{} the water dish of {}", f.out ? "took out" : "put back", name(f.enclosure));
    }
    std::string operator()(const records::VetDirection& f) const {
        return fmt::format("direction for {}: {}", name(f.animal), records::describe(f.method));
    }
    std::string operator()(const records::VeterinarianNamed& f) const {
        return "named the veterinarian " + f.who;
    }
    std::string operator()(const records::TrapRoutine& f) const {
        return f.every_days == 0 ? std::string("stopped reading traps")
                                 : fmt::format("traps read every {} days", f.every_days);
    }
    std::string operator()(const records::StrengthAcknowledged& f) const {
        return fmt::format("accepted {}{}", units::show(f.strength),
                           f.animal.text().empty() ? "" : " for " + name(f.animal));
    }
    std::string operator()(const records::PlanAdopted& f) const {
        return fmt::format("{} a plan of {}{}", f.continues ? "put" : "adopted",
                           count_of(f.rounds.size(), "round", "rounds"), f.continues ? " to other days" : "");
    }
    std::string operator()(const records::TaskDone& f) const { return "ticked " + task(f.task); }
    std::string operator()(const records::TaskSkipped& f) const { return "skipped " + task(f.task); }
    std::string operator()(const records::Withdrawn& f) const { return "withdrew: " + f.reason; }
    std::string operator()(const records::RoomTreated& f) const {
        return "treated the floor of " + name(f.room);
    }
    std::string operator()(const records::QuarantineEnded& f) const {
        return "ended the quarantine of " + name(f.animal);
    }
    std::string operator()(const records::StockKept& f) const {
        return fmt::format("noted the bottle of stock {}", f.stock.text());
    }
    std::string operator()(const records::StockGone& f) const {
        return fmt::format("noted that the bottle of stock {} is gone", f.stock.text());
    }
    std::string operator()(const records::BatchMade& f) const { return "mixed batch " + f.batch.text(); }
    std::string operator()(const records::BatchDiscarded& f) const {
        return "discarded batch " + f.batch.text();
    }

  private:
    template <class Map, class Id>
    static std::string find(const Map& among, const Id& id) {
        const auto found = among.find(id);
        return found == among.end() ? id.text() : found->second.name;
    }
    [[nodiscard]] std::string name(const AnimalId& id) const { return find(names_.animals, id); }
    [[nodiscard]] std::string name(const EnclosureId& id) const { return find(names_.enclosures, id); }
    [[nodiscard]] std::string name(const RoomId& id) const { return find(names_.rooms, id); }

    [[nodiscard]] static std::string signs(const std::vector<records::Sign>& seen) {
        std::vector<std::string> parts;
        for (const records::Sign sign : seen)
            parts.push_back(say(statement::Term{"sign", records::to_text(sign)}));
        return joined(parts);
    }

    [[nodiscard]] std::string names(const std::vector<AnimalId>& ids) const {
        if (ids.size() > named_animals) return count_of(ids.size(), "animal", "animals");
        std::vector<std::string> parts;
        for (const AnimalId& id : ids) parts.push_back(name(id));
        return joined(parts);
    }

    /// "the task bedding of Tub 4, 25 Nov 2026"
    [[nodiscard]] std::string task(const std::string& text) const {
        const auto key = records::read_task_key(text);
        if (!key) return "the task " + text;
        std::string of = name(EnclosureId(key->name));
        if (of == key->name) of = name(AnimalId(key->name));
        if (of == key->name) of = name(RoomId(key->name));
        return fmt::format("the task {} of {}, {}", records::to_text(key->part), of,
                           units::show_day(key->day));
    }

    const Collection& names_;
};

template <class Kind>
std::size_t count_kind(std::span<const Entry> entries) {
    return static_cast<std::size_t>(std::count_if(entries.begin(), entries.end(), [](const Entry& entry) {
        return std::holds_alternative<Kind>(entry.fact);
    }));
}

/// "adding 999 animals, 40 enclosures and 2 rooms"; empty where nothing but one thing was added.
std::string tell_adding(std::span<const Entry> undone) {
    const std::size_t arrived = count_kind<records::AnimalArrived>(undone);
    const std::size_t enclosures = count_kind<records::EnclosureAdded>(undone);
    const std::size_t built = count_kind<records::RoomAdded>(undone);
    if (arrived + enclosures + built < 2) return {};
    std::vector<std::string> parts;
    if (arrived > 0) parts.push_back(count_of(arrived, "animal", "animals"));
    if (enclosures > 0) parts.push_back(count_of(enclosures, "enclosure", "enclosures"));
    if (built > 0) parts.push_back(count_of(built, "room", "rooms"));
    return "adding " + joined(parts);
}

}  // namespace

std::string deed_of(const records::Fact& fact, const Collection& names, Language) {
    return std::visit(Deed(names), fact);
}

std::string undo_of(std::span<const Entry> undone, const Collection& names, Language) {
    if (undone.empty()) return {};
    if (const std::string adding = tell_adding(undone); !adding.empty()) return "undo of " + adding;
    // What was done says more than that a task was ticked by it; the first of several was written first.
    const auto older = [](const Entry& a, const Entry& b) {
        return std::pair(records::is_mark(a), a.id) < std::pair(records::is_mark(b), b.id);
    };
    const Entry& first = *std::min_element(undone.begin(), undone.end(), older);
    const auto marks =
        static_cast<std::size_t>(std::count_if(undone.begin(), undone.end(), records::is_mark));
    const std::size_t told = records::is_mark(first) ? undone.size() : undone.size() - marks;
    const std::string others =
        told > 1 ? fmt::format(" and {}", count_of(told - 1, "more entry", "more entries")) : std::string();
    return records::cut_to_fit(fmt::format("undo of '{}'{}", std::visit(Deed(names), first.fact), others));
}

}  // namespace mitefall::words
