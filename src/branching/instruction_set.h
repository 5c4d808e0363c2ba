#pragma once

#include <cstdint>
#include <type_traits>

// Which of the inner loops, compiled once for each instruction set, runs here. Highway finds that out too,
// but in a shared object that measures its clock for milliseconds whenever a program starts
// (docs/decisions/0069).
namespace mitefall::branching {

enum class InstructionSet : std::uint8_t { baseline, avx2, avx512 };

/// The widest that this processor and its system have; baseline where it is none of them. x86:
/// __builtin_cpu_supports asks the system too.
[[nodiscard]] inline InstructionSet widest_here() {
#if defined(__x86_64__)
    // What Highway takes for granted of its targets AVX2 and AVX3 (hwy/detect_targets.h); a processor with
    // these has conversions to half precision and the count of leading zeros as well.
    const bool avx2 = __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma") &&
                      __builtin_cpu_supports("bmi") && __builtin_cpu_supports("bmi2");
    if (!avx2) return InstructionSet::baseline;
    const bool avx512 = __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512vl") &&
                        __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512bw");
    return avx512 ? InstructionSet::avx512 : InstructionSet::avx2;
#else
    return InstructionSet::baseline;
#endif
}

/// The one for the widest instruction set that is there, of those compiled; nullptr: not compiled.
template <class Function>
[[nodiscard]] Function* best_here(std::type_identity_t<Function*> avx512,
                                  std::type_identity_t<Function*> avx2, Function* baseline) {
    static const InstructionSet widest = widest_here();
    if (widest == InstructionSet::avx512 && avx512 != nullptr) return avx512;
    if (widest != InstructionSet::baseline && avx2 != nullptr) return avx2;
    return baseline;
}

}  // namespace mitefall::branching

/// Of the other instruction sets none is worth its code.
#define HWY_DISABLED_TARGETS (HWY_SSSE3 | HWY_SSE4 | HWY_AVX3_DL)

/// Of a function compiled with hwy/foreach_target.h. To be used where HWY_ONCE.
#define MITEFALL_BEST_HERE(function)                                                       \
    (*mitefall::branching::best_here(HWY_CHOOSE_AVX3(function), HWY_CHOOSE_AVX2(function), \
                                     &HWY_STATIC_DISPATCH(function)))
