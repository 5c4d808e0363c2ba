#pragma once

#include <array>
#include <cstddef>

namespace mitefall::branching {

/// Parameter draws are swept side by side, this many at a time, one per SIMD lane.
inline constexpr std::size_t lane_count = 8;

/// One number per parameter draw: of a block in double precision, of two blocks side by side in single.
template <class T>
struct alignas(64) LanesOf {
    static constexpr std::size_t count = lane_count * sizeof(double) / sizeof(T);
    static constexpr std::size_t blocks = count / lane_count;
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
using Lanes = LanesOf<double>;

/// Applies `f(lane)` to every lane.
template <class F>
[[nodiscard]] Lanes for_each_lane(F f) {
    Lanes lanes;
    for (std::size_t lane = 0; lane < lane_count; ++lane) lanes[lane] = f(lane);
    return lanes;
}

/// Blocks side by side: `of(block)` gives the numbers of each.
template <class T, class F>
[[nodiscard]] LanesOf<T> from_blocks(F of) {
    LanesOf<T> lanes;
    for (std::size_t block = 0; block < LanesOf<T>::blocks; ++block) {
        const Lanes& one = of(block);
        for (std::size_t lane = 0; lane < lane_count; ++lane)
            lanes[block * lane_count + lane] = static_cast<T>(one[lane]);
    }
    return lanes;
}

/// The numbers of one of the blocks.
template <class T>
[[nodiscard]] Lanes block_of(const LanesOf<T>& lanes, std::size_t block) {
    return for_each_lane([&](std::size_t lane) { return double{lanes[block * lane_count + lane]}; });
}

}  // namespace mitefall::branching
