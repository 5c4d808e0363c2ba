#include "web/crowd.h"

#include <arpa/inet.h>

#include <algorithm>
#include <array>

namespace mitefall::web {

Crowd::Place Crowd::place_for(const std::string& address) const {
    const auto here = of_address_.find(address);
    if (here != of_address_.end() && here->second >= limits_.of_one_address) {
        const auto goes = longest_stranger(address);
        return {goes.has_value(), goes};
    }
    if (guests_.size() < limits_.connections) return {};
    const auto goes = longest_stranger_of_most();
    return {goes.has_value(), goes};
}

Crowd::Number Crowd::enter(const std::string& address, std::function<void()> send_off) {
    guests_.emplace(next_, Guest{address, std::move(send_off)});
    ++of_address_[address];
    return next_++;
}

void Crowd::send_off(Number number) {
    const auto guest = guests_.find(number);
    if (guest == guests_.end()) return;
    const auto hang_up = guest->second.send_off;
    leave(number);
    hang_up();
}

void Crowd::leave(Number number) {
    const auto guest = guests_.find(number);
    if (guest == guests_.end()) return;
    release(number);
    const auto here = of_address_.find(guest->second.address);
    if (--here->second == 0) of_address_.erase(here);
    guests_.erase(guest);
}

void Crowd::knows(Number number, bool is_known) {
    const auto guest = guests_.find(number);
    if (guest != guests_.end()) guest->second.is_known = is_known;
}

bool Crowd::reserve(Number number, std::size_t bytes) {
    const auto guest = guests_.find(number);
    if (guest == guests_.end()) return false;
    if (bytes <= limits_.small_body) return true;
    if (bytes > limits_.bytes - reserved_) return false;
    reserved_ += bytes;
    guest->second.bytes += bytes;
    return true;
}

void Crowd::release(Number number) {
    const auto guest = guests_.find(number);
    if (guest == guests_.end()) return;
    reserved_ -= guest->second.bytes;
    guest->second.bytes = 0;
}

std::optional<Crowd::Number> Crowd::longest_stranger(const std::string& address) const {
    for (const auto& [number, guest] : guests_) {
        if (!guest.is_known && guest.address == address) return number;
    }
    return std::nullopt;
}

/// Of the address that has most strangers; among several such, whoever came first.
std::optional<Crowd::Number> Crowd::longest_stranger_of_most() const {
    std::map<std::string, std::size_t> strangers;
    std::size_t most = 0;
    for (const auto& [number, guest] : guests_) {
        if (!guest.is_known) most = std::max(most, ++strangers[guest.address]);
    }
    for (const auto& [number, guest] : guests_) {
        if (!guest.is_known && strangers[guest.address] == most) return number;
    }
    return std::nullopt;
}

std::string neighbour_of(const std::string& address) {
    in6_addr read{};
    const std::string plain = address.substr(0, address.find('%'));
    if (::inet_pton(AF_INET6, plain.c_str(), &read) != 1) return address;
    constexpr std::size_t network_bytes = 8;
    for (std::size_t i = network_bytes; i < sizeof read.s6_addr; ++i) read.s6_addr[i] = 0;
    std::array<char, INET6_ADDRSTRLEN> text{};
    if (::inet_ntop(AF_INET6, &read, text.data(), text.size()) == nullptr) return address;
    return std::string(text.data()) + "/64";
}

}  // namespace mitefall::web
