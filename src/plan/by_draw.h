#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "forecast/forecast.h"
#include "plan/schedule.h"

// Chances draw by draw, for what is put together from several of them.
namespace mitefall::plan {

/// One number per draw.
using PerDraw = std::vector<double>;

/// exp(part - whole), at most 1; 0 where the whole cannot be.
[[nodiscard]] PerDraw exp_of_difference(const PerDraw& log_part, const PerDraw& log_whole);
[[nodiscard]] PerDraw less(PerDraw from, const PerDraw& what);

/// Asks one setting and its belief for chances. Once cancelled it answers with nothing worth having.
class DrawAsker {
  public:
    /// All outlive it. `progress` is asked after each block whether to go on.
    DrawAsker(const Setting& setting, const mites::Ensemble& ensemble, const belief::Belief& belief,
              branching::Tolerance tolerance, const std::function<bool(double)>& progress);

    [[nodiscard]] const scenario::Scenario& present() const { return present_; }
    [[nodiscard]] double today() const { return today_; }
    [[nodiscard]] bool is_cancelled() const { return is_cancelled_; }

    /// ln P(what the question asks, every check clean), as forecast::log_chances.
    PerDraw log_chance(const scenario::Scenario& scenario, double to, branching::Question question,
                       std::vector<scenario::PlaceIndex> counted = {});
    /// ln P(every check up to `to` is clean).
    PerDraw log_clean(const scenario::Scenario& scenario, double to);
    /// Of each draw, before anything is looked at.
    [[nodiscard]] std::vector<double> weights() const;

  private:
    forecast::ForecastRequest request_;
    scenario::Scenario present_;
    double today_;
    const std::function<bool(double)>& progress_;
    bool is_cancelled_ = false;
};

/// Where `looks` looks are made until one finds something, and then a course begins. `clear(begun, made)`:
/// P(clear, the first `made` looks clean) under the course begun at that look, or where none is begun. With
/// L_k for looks 1 to k clean and C_k for clear under the course begun at look k it is
/// P(clear, L_n) + sum over k of P(C_k, L_k-1) - P(C_k, L_k).
[[nodiscard]] PerDraw clear_by_looking(
    int looks, const std::function<PerDraw(std::optional<int> begun, int made)>& clear);

}  // namespace mitefall::plan
