#pragma once

#include <array>
#include <cstddef>

namespace mitefall::branching {

/// Parameter draws are swept side by side, this many at a time, one per SIMD lane.
inline constexpr std::size_t lane_count = 8;

/// One number per parameter draw of a block.
struct alignas(64) Lanes {
    std::array<double, lane_count> x{};

    [[nodiscard]] static Lanes all(double value) {
        Lanes lanes;
        lanes.x.fill(value);
        return lanes;
    }
    double& operator[](std::size_t lane) { return x[lane]; }
    double operator[](std::size_t lane) const { return x[lane]; }
};

/// Applies `f(lane)` to every lane.
template <class F>
[[nodiscard]] Lanes for_each_lane(F f) {
    Lanes lanes;
    for (std::size_t lane = 0; lane < lane_count; ++lane) lanes[lane] = f(lane);
    return lanes;
}

}  // namespace mitefall::branching
