#include "web/pairing.h"

#include <sys/random.h>

#include <cerrno>
#include <system_error>

namespace mitefall::web {
namespace {

constexpr std::size_t most_wrong = 5;
constexpr auto within = std::chrono::minutes(1);
constexpr std::size_t code_length = 16;
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
    for (const char byte : random_(code_length)) code += alphabet[static_cast<unsigned char>(byte) & 31U];
    return code;
}

std::string Pairing::code() const {
    const std::scoped_lock lock(guard_);
    return code_;
}

Pairing::Answer Pairing::pair(const std::string& code, Clock::time_point now) {
    const std::scoped_lock lock(guard_);
    while (!wrong_.empty() && now - wrong_.front() >= within) wrong_.pop_front();
    if (wrong_.size() >= most_wrong) return {Outcome::too_many, {}};
    if (!same(code, code_)) {
        wrong_.push_back(now);
        return {Outcome::wrong, {}};
    }
    code_ = fresh_code();
    const auto token = tokens_.insert(hexadecimal(random_(token_bytes))).first;
    return {Outcome::paired, *token};
}

bool Pairing::knows(const std::string& token) const {
    const std::scoped_lock lock(guard_);
    bool known = false;
    for (const std::string& one : tokens_) known |= same(one, token);
    return known;
}

std::size_t Pairing::devices() const {
    const std::scoped_lock lock(guard_);
    return tokens_.size();
}

void Pairing::forget_all() {
    const std::scoped_lock lock(guard_);
    tokens_.clear();
    code_ = fresh_code();
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
