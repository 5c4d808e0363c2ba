#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <unordered_map>
#include <vector>

#include "branching/sweep.h"
#include "network/compile.h"

namespace mitefall::forecast {

/// A sweep over the time after the last event of a scenario, in which nothing but what is left of earlier
/// ones acts. It is most of the way, and courses that end alike share it (docs/decisions/0019).
struct Tail {
    network::Layout layout;
    std::vector<branching::SweepResult> swept;  ///< of a block of draws, or of two side by side
};

/// Tails already swept, for forecasts of one ensemble with one tolerance, always to the same question. Safe
/// to use from several threads.
class TailBook {
  public:
    /// `key`: everything the tail depends on.
    template <class Sweep>
    [[nodiscard]] std::shared_ptr<const Tail> find(const std::string& key, Sweep sweep) {
        if (auto known = look_up(key)) return known;
        auto tail = std::make_shared<const Tail>(sweep());
        const std::scoped_lock lock(guard_);
        return tails_.try_emplace(key, std::move(tail)).first->second;
    }

  private:
    [[nodiscard]] std::shared_ptr<const Tail> look_up(const std::string& key) {
        const std::scoped_lock lock(guard_);
        const auto found = tails_.find(key);
        return found == tails_.end() ? nullptr : found->second;
    }

    std::mutex guard_;
    std::unordered_map<std::string, std::shared_ptr<const Tail>> tails_;
};

}  // namespace mitefall::forecast
