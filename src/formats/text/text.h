#pragma once

#include <string>

#include "clearance/answers.h"
#include "exposure/tracing.h"
#include "forecast/forecast.h"
#include "plan/search.h"
#include "records/collection.h"
#include "safety/verdict.h"
#include "units/text.h"
#include "worklist/shopping.h"
#include "worklist/worklist.h"

// What a person reads in a terminal. Pure functions; lines end with '\n'.
namespace mitefall::formats {

/// "98.2 % (80 % of the cases between 91 and 99.8 %)".
[[nodiscard]] std::string show_band(const base::Band& band);

[[nodiscard]] std::string collection_text(const records::Collection& collection, units::Display display);

/// Exposed enclosures with the path that explains each; those with no contact on record are counted.
[[nodiscard]] std::string exposure_text(const exposure::Tracing& tracing,
                                        const records::Collection& collection);

struct VerdictDetail {
    bool reasons = false;
    bool every_method = false;  ///< not the usual ones alone
    bool every_animal = true;   ///< a row each, for those too that may be given what most may
};

/// One row per animal, those who may be given least first, one column per method; then the reasons of every
/// refusal, the gravest first.
[[nodiscard]] std::string verdicts_text(const std::vector<safety::Verdict>& verdicts,
                                        const records::Collection& collection, VerdictDetail detail);

/// The recommended plan beside the alternatives; `details`: all other ways, and what each round buys.
[[nodiscard]] std::string plan_text(const plan::PlanChoice& choice, const plan::Setting& setting,
                                    const plan::Goal& goal, units::Display display, bool details = true);

/// `exact`: every amount unrounded beside it.
[[nodiscard]] std::string shopping_text(const worklist::Shopping& shopping, const worklist::Bench& bench,
                                        units::Display display, bool exact = false);

/// What each animal and enclosure takes of it; `exact`: to twelve figures.
[[nodiscard]] std::string shares_text(const worklist::Shopping& shopping, bool exact = false);

/// Cautions, then the work in its order, grouped by enclosure. `details`: every caution, not the first few.
[[nodiscard]] std::string worklist_text(const worklist::Worklist& list, const records::Collection& collection,
                                        units::Display display, bool details = true);

/// How sure we are now, place by place, and what rounds of checks would do.
[[nodiscard]] std::string clearance_text(const clearance::CollectionAnswer& answer,
                                         const records::Collection& collection);
[[nodiscard]] std::string next_check_text(const clearance::NextCheckAnswer& answer);
[[nodiscard]] std::string release_text(const clearance::ReleaseAnswer& answer);

/// Cautions as a list, each with its tag and source.
[[nodiscard]] std::string cautions_text(const std::vector<safety::Caution>& cautions);

}  // namespace mitefall::formats
