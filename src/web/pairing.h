#pragma once

#include <chrono>
#include <deque>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace mitefall::web {

/// A phone of the household, as it is shown to the keeper.
struct Device {
    std::uint64_t number = 0;  ///< never given to another
    std::string name;          ///< as whoever paired it called it; may be empty
    std::string address;       ///< it was paired from
    std::string paired_at;     ///< ISO 8601, by the clock of the program
};

/// The codes and tokens by which a phone of the household becomes one of ours. Any thread.
class Pairing {
  public:
    using Clock = std::chrono::steady_clock;

    /// `random`: as many secret random bytes as asked for.
    explicit Pairing(std::function<std::string(std::size_t)> random);

    /// What a phone has to show, five groups of four letters and digits, "7kqm-2xvd-...": 100 random bits
    /// (docs/decisions/0038). A new one after every use.
    [[nodiscard]] std::string code() const;

    enum class Outcome { paired, wrong, too_many, full };
    struct Answer {
        Outcome outcome = Outcome::wrong;
        std::string token;  ///< of 256 random bits
    };
    /// Who asks, and when.
    struct Asker {
        std::string name;       ///< of the device
        std::string neighbour;  ///< where it asks from (web/crowd.h)
        std::string at;         ///< ISO 8601
    };
    /// Case, spaces and hyphens of a code do not matter. At most five wrong codes a minute from one
    /// neighbour: after that not even the right one is heard from there. Others are not touched by it.
    Answer pair(const std::string& code, const Asker& asker, Clock::time_point now);

    [[nodiscard]] bool knows(const std::string& token) const;
    /// In the order of their pairing.
    [[nodiscard]] std::vector<Device> devices() const;
    /// That device has to be paired again; false: there is none of that number.
    bool withdraw(std::uint64_t number);
    /// Every phone has to be paired again.
    void forget_all();

    /// Neighbours whose wrong codes are remembered.
    [[nodiscard]] std::size_t watched() const;

  private:
    struct Known {
        std::string token;
        Device device;
    };

    [[nodiscard]] std::string fresh_code() const;
    std::deque<Clock::time_point>& wrong_of(const std::string& neighbour, Clock::time_point now);

    std::function<std::string(std::size_t)> random_;
    mutable std::mutex guard_;
    std::string code_;
    std::vector<Known> known_;
    std::uint64_t next_ = 1;
    std::map<std::string, std::deque<Clock::time_point>> wrong_;  ///< by neighbour; bounded
};

/// From the operating system (getrandom(2)). Throws std::system_error where it has none.
[[nodiscard]] std::string system_random(std::size_t bytes);

}  // namespace mitefall::web
