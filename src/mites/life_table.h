#pragma once

#include <span>

namespace mitefall::mites {

/// One age class of a life table, females only.
struct AgeClass {
    double age = 0;        ///< pivotal age
    double survival = 0;   ///< l_x, share alive at that age
    double fecundity = 0;  ///< m_x, daughters per female in the class
};

/// R0 = sum l_x m_x. Birch 1948, J. Anim. Ecol. 17:15-26.
[[nodiscard]] double net_reproduction(std::span<const AgeClass> table);

/// The root r of sum exp(-r x) l_x m_x = 1 (Euler-Lotka), per unit of age. Needs R0 > 0.
[[nodiscard]] double intrinsic_rate(std::span<const AgeClass> table);

/// T = ln(R0) / r, mean length of a generation after Birch; needs R0 != 1.
[[nodiscard]] double generation_time(std::span<const AgeClass> table);

}  // namespace mitefall::mites
