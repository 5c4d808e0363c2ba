#pragma once

#include <span>
#include <vector>

#include "belief/introductions.h"
#include "belief/lineage.h"
#include "branching/lanes.h"
#include "network/classes.h"
#include "network/compile.h"

// What may still come of mites: how likely they lead to what was found later. Roughly (one set of parameters,
// few substages, finds taken to be independent): it only tells hopeful histories from hopeless ones, and
// whatever it says wrongly is made good by the weights.
namespace mitefall::belief {

class Prospects {
  public:
    /// `times`: days, ascending, before `terrain.at()`. Nothing is swept where nothing was found.
    Prospects(const Terrain& terrain, const Sources& sources, std::vector<double> times,
              const mites::FixedParameters& fixed, const mites::MiteParameters& mode);

    [[nodiscard]] const std::vector<double>& times() const { return times_; }

    /// ln of the hope for the finds after times()[k] in a history that has come so far, of which `cells`
    /// happened; `pace` is its own.
    [[nodiscard]] double hope(std::size_t k, const Pace& pace, const Course& course,
                              std::span<const std::uint32_t> cells) const;
    /// The same on day 0, when nothing has come in yet.
    [[nodiscard]] double hope(const Pace& pace, std::span<const std::uint32_t> cells) const;

    /// Chance that one mite of a cell leads to some find.
    [[nodiscard]] double chance_of(std::uint32_t cell) const;

  private:
    struct Stop;
    /// The finds from `first` to before `last`, side by side.
    struct Block {
        std::size_t first = 0, last = 0;
        network::MiteNetwork compiled;
    };

    [[nodiscard]] std::vector<Stop> stops_of(const Block& block) const;
    void sweep(const Block& block);
    void see(const Block& block, std::size_t find, std::vector<branching::Lanes>& failure) const;
    void keep_time(const Block& block, std::size_t time, const std::vector<branching::Lanes>& failure);
    void keep_cell(const Block& block, std::size_t cell, const std::vector<branching::Lanes>& failure);
    [[nodiscard]] const scenario::Look& look(std::size_t find) const {
        return terrain_.looks()[terrain_.finds()[find]];
    }
    [[nodiscard]] double hope_of(double time, const Pace& pace, std::span<const double> expected) const;
    [[nodiscard]] double chance_of_find(std::size_t find, double ahead, double expected) const;

    const Terrain& terrain_;
    const Sources& sources_;
    std::vector<double> times_;
    mites::MiteParameters usual_draw_;
    Pace usual_;
    std::size_t finds_;
    network::Classes classes_;
    std::vector<std::vector<float>> chances_;  ///< per time: per class, stage and find
    std::vector<float> of_cells_;              ///< per cell and find
};

}  // namespace mitefall::belief
