#include "plan/score_all.h"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <numeric>
#include <utility>

#include "branching/side_by_side.h"

namespace mitefall::plan {
namespace {

/// Progress of several things done side by side: told of the whole, one at a time.
class Together {
  public:
    Together(std::size_t count, std::function<bool(double)> progress)
        : share_(count), progress_(std::move(progress)) {}
    /// That so much of this one is done; false once the whole is cancelled.
    bool tell(std::size_t which, double share) {
        const std::scoped_lock lock(guard_);
        share_[which] = share;
        const double done = std::accumulate(share_.begin(), share_.end(), 0.0);
        if (progress_ && !is_cancelled_ && !progress_(done / static_cast<double>(share_.size())))
            is_cancelled_ = true;
        return !is_cancelled_;
    }
    [[nodiscard]] bool is_cancelled() const { return is_cancelled_; }

  private:
    std::vector<double> share_;
    std::function<bool(double)> progress_;
    std::mutex guard_;
    std::atomic<bool> is_cancelled_ = false;
};

}  // namespace

std::optional<Scored> score_all(const Scorer& scorer, PermitBook& permits, const std::vector<Course>& courses,
                                std::size_t blocks, Keep keep, std::function<bool(double)> progress) {
    Scored scored;
    scored.plans.resize(courses.size());
    std::vector<std::size_t> class_counts(courses.size());
    Together together(courses.size(), std::move(progress));
    const auto score = [&](std::size_t i) {
        if (together.is_cancelled()) return;
        ScoredPlan& plan = scored.plans[i];
        plan = {courses[i], fit(assign(courses[i], scorer.setting()), scorer.setting(), permits), {}};
        const auto chance =
            scorer.chance_of(plan.schedule, blocks, [&](double share) { return together.tell(i, share); });
        if (!chance) return;
        plan.clear = chance->clear;
        if (keep == Keep::chances) plan.schedule = {};
        class_counts[i] = chance->class_count;
    };
    static_cast<void>(branching::side_by_side(courses.size(), {}, score));
    if (together.is_cancelled()) return std::nullopt;
    for (const std::size_t count : class_counts) scored.class_count = std::max(scored.class_count, count);
    return scored;
}

}  // namespace mitefall::plan
