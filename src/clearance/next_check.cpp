#include "clearance/next_check.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/contract.h"
#include "scenario/actions.h"

namespace mitefall::clearance {
namespace {

/// What is believed on a day before the check of that day.
using Before = std::map<double, Draws>;

/// P(some check finds something), given the checks before, over the draws.
double chance_to_find(const Draws& before, const Draws& after) {
    const std::vector<double> weights = posterior_weights(before);
    double found = 0;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        if (weights[i] > 0) found += weights[i] * -std::expm1(after.log_clean[i] - before.log_clean[i]);
    }
    return std::max(0.0, found);
}

/// A check on the very day of the question finds nothing where nothing is left, so ln P(clear and clean) is
/// what it was.
Draws if_clean(const Draws& before, const std::vector<double>& log_clean) {
    Draws after{before.log_clear, log_clean, before.prior};
    for (std::size_t i = 0; i < log_clean.size(); ++i) {
        after.log_clean[i] = std::min(log_clean[i], before.log_clean[i]);
        if (std::isinf(after.log_clean[i])) continue;
        after.log_clear[i] = std::min(0.0, before.log_clear[i] + (before.log_clean[i] - after.log_clean[i]));
    }
    return after;
}

class Valuer {
  public:
    explicit Valuer(const NextCheckRequest& request)
        : request_(request),
          enquiry_(request.standing, request.progress,
                   request.candidates.size() + request.shown + 2 * days().size() * 2) {}

    [[nodiscard]] bool look_at(const std::vector<Candidate>& candidates, std::size_t blocks) {
        enquiry_.use_blocks(blocks);
        values_.clear();
        before_.clear();
        for (const Candidate& candidate : candidates) {
            if (!add(candidate)) return false;
        }
        std::stable_sort(values_.begin(), values_.end(), [](const CheckValue& a, const CheckValue& b) {
            return a.finds_if_left > b.finds_if_left;
        });
        return true;
    }

    [[nodiscard]] std::vector<CheckValue>& values() { return values_; }

  private:
    [[nodiscard]] std::vector<double> days() const {
        std::vector<double> days;
        for (const Candidate& candidate : request_.candidates) days.push_back(candidate.time);
        std::sort(days.begin(), days.end());
        days.erase(std::unique(days.begin(), days.end()), days.end());
        return days;
    }

    [[nodiscard]] const Draws* before(double time) {
        const auto found = before_.find(time);
        if (found != before_.end()) return &found->second;
        auto draws = enquiry_.draws_at(*request_.standing.scenario, time);
        if (!draws) return nullptr;
        return &before_.emplace(time, std::move(*draws)).first->second;
    }

    [[nodiscard]] bool add(const Candidate& candidate) {
        base::expects(candidate.time >= request_.standing.today, "a check today or later");
        const Draws* const earlier = before(candidate.time);
        if (earlier == nullptr) return false;
        const scenario::Scenario checked =
            with_events(*request_.standing.scenario,
                        {{candidate.time, scenario::clean_check(candidate.place, candidate.method)}});
        const std::vector<double> log_clean = enquiry_.log_clean(checked, candidate.time);
        if (enquiry_.is_cancelled()) return false;
        const Draws later = if_clean(*earlier, log_clean);
        const Sureness now = sureness_of(*earlier);
        const double found = chance_to_find(*earlier, later);
        const double left = now.risk.mean;
        values_.push_back({candidate, left > 0 ? std::min(1.0, found / left) : 0, now, sureness_of(later)});
        return true;
    }

    const NextCheckRequest& request_;
    Enquiry enquiry_;
    Before before_;
    std::vector<CheckValue> values_;
};

}  // namespace

std::optional<std::vector<CheckValue>> value_checks(const NextCheckRequest& request) {
    Valuer valuer(request);
    if (!valuer.look_at(request.candidates, 1)) return std::nullopt;
    std::vector<Candidate> best;
    for (const CheckValue& value : valuer.values()) {
        if (best.size() < request.shown) best.push_back(value.candidate);
    }
    if (!valuer.look_at(best, request.standing.blocks)) return std::nullopt;
    return std::move(valuer.values());
}

}  // namespace mitefall::clearance
