#pragma once

#include <array>
#include <cstddef>

namespace mitefall::branching {

/// Parameter draws are swept side by side, this many at a time, one per SIMD lane.
inline constexpr std::size_t lane_count = 8;

/// One number per parameter draw, of so many blocks of draws side by side.
template <class T, std::size_t Blocks>
struct alignas(Blocks* lane_count * sizeof(T)) LanesOf {
    using Number = T;
    static constexpr std::size_t blocks = Blocks;
    static constexpr std::size_t count = blocks * lane_count;
    std::array<T, count> x{};

    [[nodiscard]] static LanesOf all(T value) {
        LanesOf lanes;
        lanes.x.fill(value);
        return lanes;
    }
    T& operator[](std::size_t lane) { return x[lane]; }
    T operator[](std::size_t lane) const { return x[lane]; }
    friend bool operator==(const LanesOf&, const LanesOf&) = default;
};
using Lanes = LanesOf<double, 1>;
using SingleLanes = LanesOf<float, 1>;
using PairedLanes = LanesOf<float, 2>;

/// Applies `f(lane)` to every lane.
template <class F>
[[nodiscard]] Lanes for_each_lane(F f) {
    Lanes lanes;
    for (std::size_t lane = 0; lane < lane_count; ++lane) lanes[lane] = f(lane);
    return lanes;
}

/// Blocks side by side: `of(block)` gives the numbers of each.
template <class L, class F>
[[nodiscard]] L from_blocks(F of) {
    L lanes;
    for (std::size_t block = 0; block < L::blocks; ++block) {
        const Lanes& one = of(block);
        for (std::size_t lane = 0; lane < lane_count; ++lane)
            lanes[block * lane_count + lane] = static_cast<typename L::Number>(one[lane]);
    }
    return lanes;
}

/// The numbers of one of the blocks.
template <class L>
[[nodiscard]] Lanes block_of(const L& lanes, std::size_t block) {
    return for_each_lane([&](std::size_t lane) { return double{lanes[block * lane_count + lane]}; });
}

}  // namespace mitefall::branching
