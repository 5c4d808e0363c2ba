#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>

// Who is connected by one door, and how much they may send at a time. One thread.
namespace mitefall::web {

struct CrowdLimits {
    std::size_t connections = 200;
    std::size_t of_one_address = 24;       ///< a browser opens six (assumption: four of them behind one)
    std::size_t bytes = 24UL << 20U;       ///< of all large bodies being received or worked on
    std::size_t small_body = 64UL << 10U;  ///< bytes; a body no larger never has to wait for others
};

class Crowd {
  public:
    explicit Crowd(CrowdLimits limits) : limits_(limits) {}

    using Number = std::uint64_t;  ///< of a connection, in order of arrival

    /// Whether one more from `address` comes in, and who has to go for it: where its address, or the house,
    /// is full, the longest connected stranger of whatever address has most. Those of the household stay.
    struct Place {
        bool is_free = true;
        std::optional<Number> goes;
    };
    [[nodiscard]] Place place_for(const std::string& address) const;

    /// `send_off` hangs up on it; called by `send_off` only.
    Number enter(const std::string& address, std::function<void()> send_off);
    void send_off(Number number);
    void leave(Number number);
    /// Whether it showed that it is of the household.
    void knows(Number number, bool is_known);

    /// Room for a body of that size; false: too much is being received already. Given back by `release`, or
    /// when it leaves.
    bool reserve(Number number, std::size_t bytes);
    void release(Number number);

    [[nodiscard]] std::size_t size() const { return guests_.size(); }
    [[nodiscard]] std::size_t reserved() const { return reserved_; }

  private:
    struct Guest {
        std::string address;
        std::function<void()> send_off;
        bool is_known = false;
        std::size_t bytes = 0;
    };

    [[nodiscard]] std::optional<Number> longest_stranger(const std::string& address) const;
    [[nodiscard]] std::optional<Number> longest_stranger_of_most() const;

    CrowdLimits limits_;
    std::map<Number, Guest> guests_;
    std::map<std::string, std::size_t> of_address_;
    std::size_t reserved_ = 0;
    Number next_ = 0;
};

/// One neighbour has one address, or with IPv6 one network of 64 bits (RFC 4291, 2.5.1): "2001:db8:0:1::/64".
[[nodiscard]] std::string neighbour_of(const std::string& address);

}  // namespace mitefall::web
