#include "belief/looks.h"

#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <limits>

namespace mitefall::belief {
namespace {

struct CountRange {
    double low = 0;
    double high = 0;
};

/// The numbers a word of the records stands for.
constexpr CountRange counts_of(records::SeenCount seen) {
    switch (seen) {
        case records::SeenCount::none: return {0, 0};
        case records::SeenCount::one: return {1, 1};
        case records::SeenCount::few: return {2, 10};
        case records::SeenCount::many: return {11, 50};
        case records::SeenCount::masses: return {51, std::numeric_limits<double>::infinity()};
    }
    return {};
}

double chance_of_none(const scenario::Look& look, const Visible& mites, const Eyes& eyes) {
    double log_none = 0;
    if (look.where != scenario::LookedAt::nest) log_none += mites.on_animal * std::log1p(-eyes.on_animal);
    if (look.where != scenario::LookedAt::animal) log_none += mites.off_animal * std::log1p(-eyes.off_animal);
    return std::exp(log_none);
}

}  // namespace

double chance_to_see(const scenario::Look& look, const Eyes& eyes, mites::Activity activity) {
    if (!shows(look, activity)) return 0;
    return mites::is_on_animal(activity) ? eyes.on_animal : eyes.off_animal;
}

double binomial_up_to(double k, double n, double p) {
    if (k < 0) return 0;
    if (n <= k || p <= 0) return 1;
    if (p >= 1) return 0;
    return boost::math::ibeta(n - k, k + 1, 1 - p);
}

double chance_of_count(const scenario::Look& look, const Visible& mites, const Eyes& eyes) {
    if (look.seen == records::SeenCount::none) return chance_of_none(look, mites, eyes);
    // Seen both ways the numbers add up: as if all were of the better seen kind, and fewer.
    const bool animal_better = eyes.on_animal >= eyes.off_animal;
    const double on = look.where == scenario::LookedAt::nest ? 0 : mites.on_animal * eyes.on_animal;
    const double off = look.where == scenario::LookedAt::animal ? 0 : mites.off_animal * eyes.off_animal;
    const double p = look.where == scenario::LookedAt::nest     ? eyes.off_animal
                     : look.where == scenario::LookedAt::animal ? eyes.on_animal
                     : animal_better                            ? eyes.on_animal
                                                                : eyes.off_animal;
    const double n = p > 0 ? (on + off) / p : 0;
    const CountRange range = counts_of(look.seen);
    return std::max(0.0, binomial_up_to(range.high, n, p) - binomial_up_to(range.low - 1, n, p));
}

double likelihood_of(const scenario::Look& look, const Visible& mites, const Eyes& eyes,
                     const RecordErrors& errors) {
    const double honest = (1 - errors.careless) * chance_of_count(look, mites, eyes);
    if (!scenario::is_find(look)) return honest + errors.careless;
    const double some = 1 - chance_of_none(look, mites, eyes);
    return honest + errors.careless * some / other_words + errors.unexplained;
}

double doubt_of(const scenario::Look& look, const Visible& mites, const Eyes& eyes,
                const RecordErrors& errors) {
    const double honest = (1 - errors.careless) * chance_of_count(look, mites, eyes);
    return 1 - honest / likelihood_of(look, mites, eyes, errors);
}

}  // namespace mitefall::belief
