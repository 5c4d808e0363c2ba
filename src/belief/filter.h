#pragma once

#include <functional>
#include <span>
#include <vector>

#include "belief/belief.h"
#include "belief/posterior.h"
#include "belief/proposal.h"
#include "belief/prospects.h"

// A particle filter that looks ahead: histories go on together from one moment to the next; where few of them
// carry the hope, those are multiplied and the others end.
namespace mitefall::belief {

struct FilterSetting {
    const BeliefRequest& request;
    const Terrain& terrain;
    const Sources& sources;
    const std::vector<Pace>& paces;  ///< per draw
    const Prospects& prospects;
};

/// One run. Begins `counts[d]` histories of draw d, whose cells `proposal` draws; `first` is the number of
/// the first of them, by which all its random numbers are told apart from those of other runs. Every weight
/// is that of the history among all of its draw: they sum, on average, to the chance of the looks given the
/// draw and that something came in, times the chance of the latter (twisted targets, Guarniero, Johansen &
/// Lee 2017, J. Am. Stat. Assoc. 112:1636-1647; systematic resampling, Kitagawa 1996, J. Comput. Graph. Stat.
/// 5:1-25). Fewer than were begun may be left. `is_cancelled` is asked now and then, from any thread; once
/// true, what is given back is of no use.
[[nodiscard]] std::vector<History> filter(const FilterSetting& setting, const Proposal& proposal,
                                          std::span<const std::uint32_t> counts, std::size_t first,
                                          const std::function<bool()>& is_cancelled);

/// Moments between day 0 and `at` at which histories are chosen: close before finds, wide elsewhere.
[[nodiscard]] std::vector<double> moments_to_choose(std::span<const scenario::Look> looks, double at);

}  // namespace mitefall::belief
