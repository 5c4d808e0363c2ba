#include "branching/side_by_side.h"

#include <tbb/parallel_for.h>

#include <atomic>
#include <mutex>

namespace mitefall::branching {

bool side_by_side(std::size_t count, const std::function<bool(double)>& progress,
                  const std::function<void(std::size_t)>& each) {
    std::atomic<bool> cancelled = false;
    std::mutex reporting;
    std::size_t done = 0;
    tbb::parallel_for(std::size_t{0}, count, [&](std::size_t i) {
        if (cancelled) return;
        each(i);
        if (!progress) return;
        const std::scoped_lock lock(reporting);
        if (!progress(static_cast<double>(++done) / static_cast<double>(count))) cancelled = true;
    });
    return !cancelled;
}

}  // namespace mitefall::branching
