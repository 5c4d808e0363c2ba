#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "safety/check.h"
#include "safety/verdict.h"
#include "units/climate.h"

// One function per gate of the safety rules. Each adds what it finds; none takes anything away.
namespace mitefall::safety {

struct Findings {
    std::vector<Reason> reasons;
    std::vector<Caution> cautions;
};

/// One animal, one request, and all that is known about them.
struct Question {
    const Case& with;
    const records::Animal& animal;
    const std::optional<evidence::Taxon>& taxon;
    const Request& request;
    std::span<const Application> proposed;
};

/// Something done to the animal or to its enclosure while it lived there, or proposed.
struct Told {
    records::Method method = records::Method::change_substrate;
    records::Dated when;
    bool is_proposed = false;
    std::optional<records::Dated> known{};  ///< since when, if not since `when`
    bool is_wet_paper = false;              ///< the animal lay on what was sprayed; no treatment of its own
};
[[nodiscard]] std::vector<Told> told_about(const Question& question);

/// What speaks against the method because of these: known since the last of them, and not at all where one is
/// only proposed.
void rest_on(Reason& reason, std::span<const Told> grounds);

/// A veterinarian's direction for this animal and method lifts what may be lifted and was known when it was
/// given, up to the strength and the number it names. It stays visible as a caution.
void apply_direction(const Question& question, Findings& findings);

/// Where a rule comes from.
struct Basis {
    std::string source;
    evidence::Tag tag = evidence::Tag::assumption;
};
[[nodiscard]] Basis practice();
[[nodiscard]] Basis our_assumption();
[[nodiscard]] Basis published(const evidence::Tables& tables, std::string_view source_key, evidence::Tag tag);
template <class T>
[[nodiscard]] Basis basis_of(const evidence::Cited<T>& row) {
    return {row.source, row.tag};
}

[[nodiscard]] Reason against(Ruling ruling, std::string text, const Basis& basis, std::string remedy);
[[nodiscard]] Reason missing_fact(std::string text, const Basis& basis, std::string remedy);
[[nodiscard]] Caution caution(std::string text, const Basis& basis);
/// One that holds for this animal alone and names it.
[[nodiscard]] Caution about(const records::Animal& animal, std::string text, const Basis& basis);
[[nodiscard]] std::string name_of_animal(const records::Animal& animal);

/// "14 days".
[[nodiscard]] std::string days_text(const evidence::Cited<units::TimeSpan>& row);

/// What is left where an agent may not be given.
inline constexpr const char* gentler_methods =
    "use gentler methods (soak, wipe, paper changes) and ask a veterinarian";

[[nodiscard]] double days_apart(units::Day a, units::Day b);

/// The first day from `day` on that is at least `distance` from every one of `others`, which are sorted.
[[nodiscard]] units::Day first_day_apart(const std::vector<units::Day>& others, units::Day day,
                                         units::TimeSpan distance);

/// Wait until a day.
[[nodiscard]] Reason wait(std::string text, units::Day until, const Basis& basis);

/// What is on record and cannot be counted may be what speaks against it.
void check_record(const records::Collection& collection, Findings& findings);
void check_taxon(const Question& question, Findings& findings);
void check_weight(const Question& question, Findings& findings);
void check_shed(const Question& question, Findings& findings);
void check_condition(const Question& question, Findings& findings);
void check_prescription(const Question& question, Findings& findings);
void check_fipronil(const Question& question, Findings& findings);
void check_repeats(const Question& question, Findings& findings);
void check_two_agents(const Question& question, Findings& findings);
void check_injection(const Question& question, Findings& findings);
void check_housemates(const Question& question, Findings& findings);
void check_room_is_empty(const Question& question, Findings& findings);
void check_oil(const Question& question, Findings& findings);
void check_predators(const Question& question, Findings& findings);
/// Where spray is wet the dish is out: not for those that must always be able to drink.
void check_water(const Question& question, Findings& findings);
/// How much of the spray on the paper meets this animal in a day.
void check_damp_paper(const Question& question, Findings& findings);

/// For an enclosure without an animal. `proposed`: what is to be done in it and not yet on record.
void check_predators_in(const Case& with, const records::Enclosure& enclosure, const Request& request,
                        std::span<const Application> proposed, Findings& findings);

/// The animal's mass, if it is on file and not stale on `day`.
[[nodiscard]] std::optional<units::Mass> valid_mass(const records::Animal& animal, units::Day day,
                                                    const evidence::Tables& tables);

/// `animal`: the one to be treated, or to lie on it; null where no animal lives.
void check_strength(const Case& with, const Request& request, const records::Animal* animal,
                    Findings& findings);

/// `self`: the animal to be treated, whose own kind another gate looks at; may be empty.
void check_air(const Case& with, const records::RoomId& room, records::Method method,
               const records::AnimalId& self, Findings& findings);

}  // namespace mitefall::safety
