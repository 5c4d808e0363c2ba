#pragma once

#include <span>

#include "mites/stages.h"
#include "scenario/on_record.h"

// What a look on record says about the mites that were there.
namespace mitefall::belief {

/// Mites a look could have shown. Not whole numbers where a crowd is carried by a sample of it.
struct Visible {
    double on_animal = 0;
    double off_animal = 0;  ///< adults walking in the nest
};

/// How likely one mite is to be seen in one look of a method.
struct Eyes {
    double on_animal = 0;   ///< chance for a mite on the animal
    double off_animal = 0;  ///< chance for an adult walking in the nest
};

/// Of the four words for "some", those not written down.
inline constexpr double other_words = 3;

/// Whether a look can show mites that do what `activity` says.
[[nodiscard]] constexpr bool shows(const scenario::Look& look, mites::Activity activity) {
    return (look.where != scenario::LookedAt::nest && mites::is_on_animal(activity)) ||
           (look.where != scenario::LookedAt::animal && mites::shows_off_animal(activity));
}

/// Chance that it shows one of them.
[[nodiscard]] double chance_to_see(const scenario::Look& look, const Eyes& eyes, mites::Activity activity);

/// How records go wrong, and how often they tell of mites that nothing else explains; rows record_careless
/// and find_unexplained of the evidence.
struct RecordErrors {
    double careless = 0;
    double unexplained = 0;
};

/// P(X <= k) for X binomial with n trials of chance p; n >= 0 need not be whole (incomplete beta function,
/// Abramowitz & Stegun 1964, 26.5.24).
[[nodiscard]] double binomial_up_to(double k, double n, double p);

/// Chance that a careful look shows as many mites as `look` says, each mite seen or not by itself.
[[nodiscard]] double chance_of_count(const scenario::Look& look, const Visible& mites, const Eyes& eyes);

/// The same for a look as people make and write them. Of a clean check: it was careless, or honest and clean.
/// Of a find: the number is right, or mites were seen and the number is wrong (any of the other three alike),
/// or what was seen is none of these mites but others that had only just come in (Lineage puts them there).
/// It is never only a mistake: where a find is on record, mites were alive.
[[nodiscard]] double likelihood_of(const scenario::Look& look, const Visible& mites, const Eyes& eyes,
                                   const RecordErrors& errors);

/// The part of that likelihood which rests on the record being wrong, or on mites that nothing else explains:
/// 0 to 1.
[[nodiscard]] double doubt_of(const scenario::Look& look, const Visible& mites, const Eyes& eyes,
                              const RecordErrors& errors);

}  // namespace mitefall::belief
