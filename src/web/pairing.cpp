#include "web/pairing.h"

#include <sys/random.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

namespace mitefall::web {
namespace {

constexpr std::size_t most_wrong = 5;
constexpr auto within = std::chrono::minutes(1);
constexpr std::size_t most_watched = 256;  ///< neighbours: a home network of IPv4 has no more
constexpr std::size_t most_devices = 50;
constexpr std::size_t code_length = 20;
constexpr std::size_t group_length = 4;
constexpr std::size_t token_bytes = 32;

/// Letters and digits no two of which look alike, 32 of them.
constexpr std::string_view alphabet = "123456789abcdefghjkmnpqrstuvwxyz";
static_assert(alphabet.size() == 32);

std::string hexadecimal(const std::string& bytes) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (const char byte : bytes) {
        const auto value = static_cast<unsigned char>(byte);
        text += digits[value >> 4U];
        text += digits[value & 15U];
    }
    return text;
}

/// A code as it is compared: spaces and hyphens are for whoever reads it, and it has no capitals.
std::string plain(const std::string& code) {
    std::string text;
    for (const char c : code) {
        if (c == ' ' || c == '-') continue;
        text += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return text;
}

/// Takes the same time wherever the texts differ.
bool same(const std::string& a, const std::string& b) {
    if (a.size() != b.size()) return false;
    unsigned difference = 0;
    for (std::size_t i = 0; i < a.size(); ++i)
        difference |=
            static_cast<unsigned char>(a[i]) ^ static_cast<unsigned>(static_cast<unsigned char>(b[i]));
    return difference == 0;
}

}  // namespace

Pairing::Pairing(std::function<std::string(std::size_t)> random)
    : random_(std::move(random)), code_(fresh_code()) {}

std::string Pairing::fresh_code() const {
    std::string code;
    for (const char byte : random_(code_length)) {
        if (!code.empty() && (code.size() + 1) % (group_length + 1) == 0) code += '-';
        code += alphabet[static_cast<unsigned char>(byte) & 31U];
    }
    return code;
}

std::string Pairing::code() const {
    const std::scoped_lock lock(guard_);
    return code_;
}

/// The times of its wrong codes within the last minute. Where too many neighbours are watched, whoever was
/// wrong longest ago is forgotten: the length of the code is what keeps strangers out.
std::deque<Pairing::Clock::time_point>& Pairing::wrong_of(const std::string& neighbour,
                                                          Clock::time_point now) {
    for (auto one = wrong_.begin(); one != wrong_.end();) {
        auto& times = one->second;
        while (!times.empty() && now - times.front() >= within) times.pop_front();
        one = times.empty() ? wrong_.erase(one) : std::next(one);
    }
    if (wrong_.size() >= most_watched && !wrong_.contains(neighbour)) {
        wrong_.erase(std::min_element(wrong_.begin(), wrong_.end(), [](const auto& a, const auto& b) {
            return a.second.back() < b.second.back();
        }));
    }
    return wrong_[neighbour];
}

Pairing::Answer Pairing::pair(const std::string& code, const Asker& asker, Clock::time_point now) {
    const std::scoped_lock lock(guard_);
    auto& wrong = wrong_of(asker.neighbour, now);
    if (wrong.size() >= most_wrong) return {Outcome::too_many, {}};
    if (!same(plain(code), plain(code_))) {
        wrong.push_back(now);
        return {Outcome::wrong, {}};
    }
    wrong_.erase(asker.neighbour);
    if (known_.size() >= most_devices) return {Outcome::full, {}};
    code_ = fresh_code();
    known_.push_back({hexadecimal(random_(token_bytes)), {next_++, asker.name, asker.neighbour, asker.at}});
    return {Outcome::paired, known_.back().token};
}

bool Pairing::knows(const std::string& token) const {
    const std::scoped_lock lock(guard_);
    bool known = false;
    for (const Known& one : known_) known |= same(one.token, token);
    return known;
}

std::vector<Device> Pairing::devices() const {
    const std::scoped_lock lock(guard_);
    std::vector<Device> devices;
    for (const Known& one : known_) devices.push_back(one.device);
    return devices;
}

bool Pairing::withdraw(std::uint64_t number) {
    const std::scoped_lock lock(guard_);
    return std::erase_if(known_, [&](const Known& one) { return one.device.number == number; }) > 0;
}

void Pairing::forget_all() {
    const std::scoped_lock lock(guard_);
    known_.clear();
    code_ = fresh_code();
}

std::size_t Pairing::watched() const {
    const std::scoped_lock lock(guard_);
    return wrong_.size();
}

std::string system_random(std::size_t bytes) {
    std::string random(bytes, '\0');
    for (std::size_t have = 0; have < bytes;) {
        const ssize_t more = ::getrandom(random.data() + have, bytes - have, 0);
        if (more > 0) {
            have += static_cast<std::size_t>(more);
        } else if (errno != EINTR) {
            throw std::system_error(errno, std::generic_category(), "getrandom");
        }
    }
    return random;
}

}  // namespace mitefall::web
