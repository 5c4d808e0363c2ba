#pragma once

#include <cstddef>
#include <functional>

namespace mitefall::branching {

/// Calls `each(i)` for i below `count`, on all threads in no order. After each, `progress` (if there is one)
/// is told the share done, one call at a time; once it answers false no further call begins. False if
/// cancelled.
[[nodiscard]] bool side_by_side(std::size_t count, const std::function<bool(double)>& progress,
                                const std::function<void(std::size_t)>& each);

}  // namespace mitefall::branching
