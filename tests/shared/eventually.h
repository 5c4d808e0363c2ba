#pragma once

#include <chrono>
#include <thread>

namespace mitefall {

/// Waits until it holds, however slow the machine is; the limit is for what never comes.
template <class Condition>
[[nodiscard]] bool eventually(Condition holds) {
    const auto limit = std::chrono::steady_clock::now() + std::chrono::minutes(5);
    while (!holds()) {
        if (std::chrono::steady_clock::now() > limit) return false;
        std::this_thread::yield();
    }
    return true;
}

}  // namespace mitefall
