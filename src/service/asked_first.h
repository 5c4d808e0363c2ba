#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/vocabulary.h"
#include "service/keeper.h"

// What is asked before facts go on record that could carry mites about, or end a watch too early.
namespace mitefall::service {

/// The chance that is wanted before a quarantine ends without a reason on record (assumption, decision 33).
inline constexpr double wanted_to_release = 0.95;

enum class AskKind {
    move,            ///< from or to a place where mites were seen or may be, or out of quarantine to others
    departure,       ///< an animal leaves the collection from such a place, or out of quarantine
    quarantine_end,  ///< something speaks against it; only a reason in the fact itself answers this
    dry_move,        ///< an animal that has no water dish goes where there is none either
    same_name,       ///< an animal arrives with the name of one that is here
    treated_prey,    ///< a meal of prey that was treated for mites of its own
};
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(AskKind) {
    using enum AskKind;
    return base::vocabulary("question asked first", move, "move", departure, "departure", quarantine_end,
                            "quarantine-end", dry_move, "dry-move", same_name, "same-name", treated_prey,
                            "treated-prey");
}

/// What speaks against the end of a quarantine.
enum class Doubt { mites_in_room, too_early, chance_low, chance_unknown };
[[nodiscard]] constexpr auto vocabulary_of(Doubt) {
    using enum Doubt;
    return base::vocabulary("doubt", mites_in_room, "mites-in-room", too_early, "too-early", chance_low,
                            "chance-low", chance_unknown, "chance-unknown");
}

/// A line for whoever takes an animal.
struct Tell {
    statement::Statement what;         ///< asked.def
    std::optional<evidence::Tag> tag;  ///< how far it may be trusted; none: it is on record
    std::string source;                ///< empty for common practice, assumptions and what is on record
};

/// One thing to say yes to, as it stands now.
struct Ask {
    AskKind kind = AskKind::move;
    std::size_t fact = 0;  ///< which of the facts is asked about, from 0
    std::string key;       ///< names what is asked and how things stand: another danger is another key
    records::AnimalId animal;
    std::optional<records::EnclosureId> from, to;
    worklist::Danger from_danger = worklist::Danger::healthy, to_danger = worklist::Danger::healthy;
    std::vector<Doubt> doubts;               ///< of a quarantine_end
    bool needs_reason = false;               ///< saying yes does not do: the fact must hold a reason
    std::vector<statement::Statement> says;  ///< sentence by sentence (asked.def)
    std::vector<Tell> tell;                  ///< of a departure: what whoever takes the animal must know
};

/// The chance that an arrival brought no mites, as far as it has been worked out; nullopt: it has not.
using ReleaseChance = std::function<std::optional<double>(const records::AnimalId&)>;

/// What must be said yes to before the facts go on record together; nothing for harmless ones, nor for moves
/// and departures of days before contacts are traced (look_back): they are history. Dangers are
/// those of today as `overview_of` tells them. A fact that corrects an entry asks like the moves,
/// departures and ends of quarantine of today that it comes to: where it changes where an animal is now, or
/// that it is here, or kept apart. Facts that name nothing on record ask nothing: they are refused elsewhere.
[[nodiscard]] base::Result<std::vector<Ask>> asked_first(const Situation& situation,
                                                         const std::vector<DatedFact>& facts,
                                                         const ReleaseChance& chance);

/// `Keeper::record_all` of facts about which all was said yes to. Error conflict with `where` "acknowledged"
/// and the first open key as `value` where something was not, or stands otherwise by now; nothing is written
/// then. Moves and departures that were asked about go on record as `knowing`, with `reason` (why all the
/// same, in words; may be empty); none that was not.
base::Result<std::vector<records::FactId>> record_knowingly(Keeper& keeper, std::vector<DatedFact> facts,
                                                            const std::vector<std::string>& acknowledged,
                                                            const ReleaseChance& chance, const Now& now,
                                                            const std::string& reason = {});

/// What facts would do to the chances. Empty where there is nothing to ask: no mite reported, no course.
struct Consequence {
    std::optional<base::Band> clear_before, clear_after;    ///< no mite alive today
    std::optional<base::Band> course_before, course_after;  ///< what is left of the adopted course clears
};

/// Errors: as `Keeper::would_accept`; conflict where `options.progress` cancels.
[[nodiscard]] base::Result<Consequence> consequence_of(const Situation& situation,
                                                       const std::vector<DatedFact>& facts,
                                                       const PlanOptions& options);

}  // namespace mitefall::service
