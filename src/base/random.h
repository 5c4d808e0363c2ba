#pragma once

#include <Random123/philox.h>

#include <boost/random/exponential_distribution.hpp>
#include <boost/random/normal_distribution.hpp>
#include <cmath>
#include <cstdint>

#include "base/power.h"

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
    double exponential(double rate) { return boost::random::exponential_distribution<>()(*this) / rate; }

    /// Time until the last of `changes` that follow one another, each after an exponential wait at `rate`;
    /// both above 0. Exact, by rejection from a normal number (Marsaglia & Tsang 2000, ACM Trans. Math.
    /// Softw. 26:363-372), for a fifth of the random numbers that the waits themselves would take.
    double erlang(int changes, double rate) {
        if (changes == 1) return exponential(rate);
        const double d = changes - 1.0 / 3;
        const double c = 1 / std::sqrt(9 * d);
        while (true) {
            const double x = boost::random::normal_distribution<>()(*this);
            const double side = 1 + c * x;
            if (side <= 0) continue;
            const double v = side * side * side;
            const double u = coarse_uniform();
            if (u < 1 - 0.0331 * x * x * x * x || std::log(u) < x * x / 2 + d * (1 - v + std::log(v)))
                return d * v / rate;
        }
    }

    /// How many of a few trials succeed, each by itself with `chance`. By inversion (BINV; Kachitvichyanukul
    /// & Schmeiser 1988, Commun. ACM 31:216-222).
    int successes_of_few(int trials, double chance) {
        if (chance > 0.5) return trials - successes_of_few(trials, 1 - chance);
        if (trials <= 0 || chance <= 0) return 0;
        const double odds = chance / (1 - chance);
        double left = uniform();
        double here = power(1 - chance, trials);
        int count = 0;
        for (; left > here && count < trials; ++count) {
            left -= here;
            here *= odds * (trials - count) / (count + 1);
        }
        return count;
    }

    /// Uniform on the open interval (0, 1), 32 bits: they cost half, and do for times.
    double coarse_uniform() { return (static_cast<double>((*this)()) + 0.5) * 0x1p-32; }

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
