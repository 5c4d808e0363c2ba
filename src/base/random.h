#pragma once

#include <Random123/philox.h>

#include <cmath>
#include <cstdint>

namespace mitefall::base {

/// A counter-based stream of random numbers (Philox 4x32-10; Salmon et al. 2011, SC'11).
/// The n-th number of stream (seed, a, b) is a pure function of the four, so results do not depend on how
/// work is shared among threads.
class RandomStream {
  public:
    using result_type = std::uint32_t;

    RandomStream(std::uint64_t seed, std::uint32_t a, std::uint32_t b)
        : key_{{static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32U)}},
          counter_{{0, 0, a, b}} {}

    static constexpr result_type min() { return 0; }
    static constexpr result_type max() { return UINT32_MAX; }

    result_type operator()() {
        if (used_ == 4) refill();
        return block_[used_++];
    }

    /// Uniform on the open interval (0, 1), 53 bits.
    double uniform() {
        const std::uint64_t high = (*this)();
        const std::uint64_t bits = ((high << 32U) | (*this)()) >> 11U;
        return (static_cast<double>(bits) + 0.5) * 0x1p-53;
    }

    /// Exponential waiting time; rate > 0, in the unit of 1 / the answer.
    double exponential(double rate) { return -std::log(uniform()) / rate; }

    /// Failures before the first success, each trial by itself with `chance`, above 0 and below 1: a whole
    /// number.
    double failures(double chance) { return std::floor(std::log(uniform()) / std::log1p(-chance)); }

  private:
    using Generator = r123::Philox4x32;

    void refill() {
        block_ = Generator{}(counter_, key_);
        counter_.incr();
        used_ = 0;
    }

    Generator::key_type key_;
    Generator::ctr_type counter_;
    Generator::ctr_type block_{};
    unsigned used_ = 4;
};

}  // namespace mitefall::base
