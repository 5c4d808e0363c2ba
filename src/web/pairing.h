#pragma once

#include <chrono>
#include <deque>
#include <functional>
#include <mutex>
#include <set>
#include <string>

namespace mitefall::web {

/// The codes and tokens by which a phone of the household becomes one of ours. Any thread.
class Pairing {
  public:
    using Clock = std::chrono::steady_clock;

    /// `random`: as many secret random bytes as asked for.
    explicit Pairing(std::function<std::string(std::size_t)> random);

    /// What a phone has to show, 16 letters and digits (80 random bits); a new one after every use.
    [[nodiscard]] std::string code() const;

    enum class Outcome { paired, wrong, too_many };
    struct Answer {
        Outcome outcome = Outcome::wrong;
        std::string token;  ///< of 256 random bits
    };
    /// At most five wrong codes a minute, from anywhere: after that not even the right one is heard.
    Answer pair(const std::string& code, Clock::time_point now);

    [[nodiscard]] bool knows(const std::string& token) const;
    [[nodiscard]] std::size_t devices() const;
    /// Every phone has to be paired again.
    void forget_all();

  private:
    [[nodiscard]] std::string fresh_code() const;

    std::function<std::string(std::size_t)> random_;
    mutable std::mutex guard_;
    std::string code_;
    std::set<std::string> tokens_;
    std::deque<Clock::time_point> wrong_;
};

/// From the operating system (getrandom(2)). Throws std::system_error where it has none.
[[nodiscard]] std::string system_random(std::size_t bytes);

}  // namespace mitefall::web
