#include "peak.h"

#include "branching/instruction_set.h"

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "peak.cpp"
#include <hwy/foreach_target.h>
#include <hwy/highway.h>

HWY_BEFORE_NAMESPACE();
namespace mitefall::bench::HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

/// Twelve chains: more than latency times ports of the machines at hand, and they stay in registers.
std::size_t multiply_add_here(std::size_t rounds, double* result) {
    const hn::ScalableTag<double> d;
    const auto m = hn::Set(d, 0.999999);
    const auto c = hn::Set(d, 1e-6);
    auto a0 = hn::Set(d, 1.0), a1 = hn::Set(d, 1.1), a2 = hn::Set(d, 1.2), a3 = hn::Set(d, 1.3);
    auto a4 = hn::Set(d, 1.4), a5 = hn::Set(d, 1.5), a6 = hn::Set(d, 1.6), a7 = hn::Set(d, 1.7);
    auto a8 = hn::Set(d, 1.8), a9 = hn::Set(d, 1.9), a10 = hn::Set(d, 2.0), a11 = hn::Set(d, 2.1);
    for (std::size_t i = 0; i < rounds; ++i) {
        a0 = hn::MulAdd(a0, m, c);
        a1 = hn::MulAdd(a1, m, c);
        a2 = hn::MulAdd(a2, m, c);
        a3 = hn::MulAdd(a3, m, c);
        a4 = hn::MulAdd(a4, m, c);
        a5 = hn::MulAdd(a5, m, c);
        a6 = hn::MulAdd(a6, m, c);
        a7 = hn::MulAdd(a7, m, c);
        a8 = hn::MulAdd(a8, m, c);
        a9 = hn::MulAdd(a9, m, c);
        a10 = hn::MulAdd(a10, m, c);
        a11 = hn::MulAdd(a11, m, c);
    }
    const auto low = hn::Add(hn::Add(hn::Add(a0, a1), hn::Add(a2, a3)), hn::Add(a4, a5));
    const auto high = hn::Add(hn::Add(hn::Add(a6, a7), hn::Add(a8, a9)), hn::Add(a10, a11));
    *result = hn::GetLane(hn::SumOfLanes(d, hn::Add(low, high)));
    return rounds * 12 * hn::Lanes(d);
}

}  // namespace mitefall::bench::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace mitefall::bench {

std::size_t multiply_add(std::size_t rounds, double& result) {
    return MITEFALL_BEST_HERE(multiply_add_here)(rounds, &result);
}

}  // namespace mitefall::bench
#endif
