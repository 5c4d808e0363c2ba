#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "base/random.h"
#include "base/vocabulary.h"
#include "belief/lineage.h"
#include "evidence/tables.h"
#include "records/names.h"

// The ways mites may have come in, before anything is known of what was seen.
namespace mitefall::belief {

enum class IntroductionKind {
    arrival,    ///< on an animal that came from outside
    outside,    ///< a single female after contact with animals elsewhere
    unnoticed,  ///< a single female by a way nobody wrote down
    longer,     ///< mites have been there since before the days looked back on
    just_then,  ///< mites seen that none of the other ways explains: they had only just come in
};

using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(IntroductionKind) {
    using enum IntroductionKind;
    return base::vocabulary("way in", arrival, "arrival", outside, "outside", unnoticed, "unnoticed", longer,
                            "longer", just_then, "just-then");
}

/// A single female that seeks an animal, not some that feed on one.
[[nodiscard]] constexpr bool is_single(IntroductionKind kind) {
    return kind == IntroductionKind::unnoticed || kind == IntroductionKind::outside;
}

/// One way mites may have come in, and how likely it is before and after what was seen.
struct Introduction {
    IntroductionKind kind = IntroductionKind::unnoticed;
    scenario::PlaceIndex place = 0;
    double first_day = 0;         ///< days; it happened, if at all, from here
    double last_day = 0;          ///< to here
    records::AnimalId animal;     ///< of an arrival
    std::string label;            ///< the animal's name, or the place's
    records::FactId contact = 0;  ///< of contact with the outside: its entry, the same for every place
    records::OutsideKind what = records::OutsideKind::show;  ///< of contact with the outside
    std::size_t after = 0;  ///< of an arrival: incidents of its instant with a lower order are over
    double prior = 0;       ///< chance that it happened; given that something did, where mites were seen
    double posterior = 0;   ///< the same after all looks
    double behind = 0;      ///< share of the mites seen last that come from it; 0 if none were seen
    double entered_p10 = 0, entered_p50 = 0, entered_p90 = 0;  ///< days, if it happened
};

/// Rows of data/evidence/introduction.toml.
struct IntroductionPrior {
    struct Founders {
        double low = 1, mode = 1, high = 1;
    };
    double arrival_carries = 0;             ///< chance, per animal
    double unnoticed_entries_per_year = 0;  ///< into the whole collection
    double there_for_longer = 0;            ///< chance, whole collection
    Founders arrival_founders, longer_founders;
    mites::OutsideChances outside;
    RecordErrors errors;
};

[[nodiscard]] IntroductionPrior introduction_prior(const evidence::Tables& tables);

/// A piece of an introduction small enough to be aimed at: an arrival, or an entry within some days. Cells
/// happen independently of one another.
struct Cell {
    std::uint32_t introduction = 0;
    double first_day = 0;
    double last_day = 0;
    double chance = 0;
};

/// Everything that may have brought mites from day 0 to `at`.
struct Sources {
    std::vector<Introduction> introductions;  ///< those of cells, then one for each place of a find
    std::vector<Cell> cells;  ///< neighbours have equal chances, so that few of many are drawn fast
    std::vector<std::uint32_t> alike_until;  ///< of the cells, see ends_of_alike
    IntroductionPrior prior;
    double none = 1;  ///< chance that no cell happened

    /// Of the newcomers a find in `place` may have shown.
    [[nodiscard]] std::uint32_t just_then(scenario::PlaceIndex place) const;
    [[nodiscard]] const Introduction& of(std::uint32_t cell) const {
        return introductions[cells[cell].introduction];
    }
};

/// What came or may have come from outside, as far as it is on record.
struct FromOutside {
    std::span<const scenario::ArrivalOnRecord> arrivals;
    std::span<const scenario::OutsideOnRecord> contacts;
};

/// Arrivals and contacts up to `at`, unnoticed entries into every place, for every enclosure with an animal
/// on day 0 mites that had been there for longer, and for every place of a find in `looks` that they came in
/// just then (no cell: Lineage lets them happen). `at` > 0.
[[nodiscard]] Sources list_sources(const scenario::Scenario& scenario, const FromOutside& outside,
                                   std::span<const scenario::Look> looks, double at,
                                   const IntroductionPrior& prior);

/// The mites of a cell that happened; `slot` is the position of its introduction in the history.
void add_founders(const Sources& sources, std::uint32_t cell, std::uint32_t slot, const Pace& pace,
                  base::RandomStream& random, std::vector<Founder>& founders);

/// Per cell, the number of the next one with another chance; of the last of them, how many there are.
[[nodiscard]] std::vector<std::uint32_t> ends_of_alike(std::span<const Cell> cells);

/// Draws which cells happen, each with its chance, into `cells` (ascending).
void draw_cells(const Sources& sources, base::RandomStream& random, std::vector<std::uint32_t>& cells);

}  // namespace mitefall::belief
