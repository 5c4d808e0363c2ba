#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "safety/check.h"
#include "safety/rules.h"
#include "safety/verdict.h"
#include "units/climate.h"

// One function per gate of the safety rules. Each adds what it finds; none takes anything away.
namespace mitefall::safety {

struct Findings {
    std::vector<Reason> reasons;
    std::vector<Caution> cautions;
};

/// Something done to the animal or to its enclosure while it lived there, or proposed.
struct Told {
    records::Method method = records::Method::change_substrate;
    records::Dated when;
    bool is_proposed = false;
    std::optional<records::Dated> known{};  ///< since when, if not since `when`
    bool is_wet_paper = false;              ///< the animal lay on what was sprayed; no treatment of its own
};
[[nodiscard]] std::vector<Told> told_about(const Case& with, const records::Animal& animal,
                                           std::span<const Application> proposed);

/// One animal, one request, and all that is known about them.
struct Question {
    const Case& with;
    const records::Animal& animal;
    const records::Enclosure& home;
    const std::optional<evidence::Taxon>& taxon;
    const Request& request;
    std::span<const Application> proposed;
    const std::vector<Told>& told;  ///< about the animal
};

/// What speaks against the method because of these: known since the last of them, and not at all where one is
/// only proposed.
void rest_on(Reason& reason, std::span<const Told> grounds);

/// A veterinarian's direction for this animal and method lifts what may be lifted and was known when it was
/// given, up to the strength and the number it names. It stays visible as a caution.
void apply_direction(const Question& question, Findings& findings);

/// The verdict without what is to be heeded of the method whoever it is for.
[[nodiscard]] Verdict judge_apart(const Case& with, const records::Animal& animal, const Request& request,
                                  const CourseSoFar& course);

/// Each adds one and gives it back, to be told more of. `remedy`: none where there is nothing to do about it.
Reason& refuse(Findings& findings, const evidence::Tables& tables, Against against,
               statement::Statement remedy);
/// Until a day, and to be gone on with from then on.
Reason& wait(Findings& findings, const evidence::Tables& tables, Against against, units::Day until);
/// It names the animals of the collection that are among the arguments.
Caution& heed(std::vector<Caution>& cautions, const evidence::Tables& tables, Heed heed);

[[nodiscard]] std::string name_of_animal(const records::Animal& animal);

[[nodiscard]] double days_apart(units::Day a, units::Day b);

/// The first day from `day` on that is at least `distance` from every one of `others`, which are sorted.
[[nodiscard]] units::Day first_day_apart(const std::vector<units::Day>& others, units::Day day,
                                         units::TimeSpan distance);

/// What is on record and cannot be counted may be what speaks against it.
void check_record(const Case& with, Findings& findings);
void check_taxon(const Question& question, Findings& findings);
void check_weight(const Question& question, Findings& findings);
void check_shed(const Question& question, Findings& findings);
void check_condition(const Question& question, Findings& findings);
void check_meals(const Question& question, Findings& findings);
/// A sign that means a veterinarian today stands against all that sickness stands against.
void check_signs(const Question& question, Findings& findings);
void check_unknown_states(const Question& question, Findings& findings);
/// After a death nothing is sprayed on or around its company until somebody says on.
void check_deaths(const Question& question, Findings& findings);
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

/// Whether this animal may live in a clean plain tub, and its enclosure be washed free of mites.
void check_tub(const Question& question, Findings& findings);
/// The same of the enclosure alone.
void check_tub_for(const Case& with, const records::Enclosure& enclosure, records::Method method,
                   Findings& findings);

/// Eggs are never treated, nor what they lie in, nor the room around them.
void check_eggs(const Case& with, const records::Enclosure& enclosure, records::Method method,
                Findings& findings);

/// `animal`: the one to be treated, or to lie on it; null where no animal lives.
void check_strength(const Case& with, const Request& request, const records::Animal* animal,
                    Findings& findings);

/// `self`: the animal to be treated, whose own kind another gate looks at; may be empty.
void check_air(const Case& with, const records::RoomId& room, records::Method method,
               const records::AnimalId& self, Findings& findings);

}  // namespace mitefall::safety
