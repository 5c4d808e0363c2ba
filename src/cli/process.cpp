#include "cli/process.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <fmt/chrono.h>
#include <charconv>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <iostream>
#include <string_view>

#include "cli/app.h"

namespace mitefall::cli {
namespace {

service::Now read_clock() {
    const auto now = std::chrono::system_clock::now();
    const std::time_t seconds = std::chrono::system_clock::to_time_t(now);
    std::tm local{};
    localtime_r(&seconds, &local);
    const auto date = std::chrono::year(local.tm_year + 1900) / (local.tm_mon + 1) / local.tm_mday;
    const auto fraction =
        std::chrono::duration_cast<std::chrono::microseconds>(now.time_since_epoch()).count() % 1'000'000;
    return {units::Day(date), fmt::format("{:%Y-%m-%dT%H:%M:%S}.{:06}Z", fmt::gmtime(seconds), fraction)};
}

std::string_view environment(const char* name) {
    const char* const value = std::getenv(name);
    return value == nullptr ? std::string_view{} : std::string_view{value};
}

/// COLUMNS where it is a number (IEEE Std 1003.1, 8.3), else what the terminal says, else 80.
std::size_t terminal_width() {
    constexpr std::size_t usual = 80;
    const std::string_view wished = environment("COLUMNS");
    std::size_t columns = 0;
    const auto [end, fault] = std::from_chars(wished.data(), wished.data() + wished.size(), columns);
    if (fault == std::errc{} && end == wished.data() + wished.size() && columns > 0) return columns;
    winsize size{};
    const bool known = ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
    return known ? size.ws_col : usual;
}

/// Only for eyes, and not where NO_COLOR says otherwise (no-color.org).
bool wants_colour() {
    return isatty(STDOUT_FILENO) == 1 && environment("NO_COLOR").empty() && environment("TERM") != "dumb" &&
           !environment("TERM").empty();
}

}  // namespace

int run_as_process(int argc, char** argv) {
    // A closed pipe ("mitefall journal | head") ends the program quietly.
    std::signal(SIGPIPE, SIG_DFL);
    std::ios::sync_with_stdio(false);
    Surroundings surroundings{std::cout,
                              std::cerr,
                              read_clock(),
                              "collection.mitefall",
                              isatty(STDERR_FILENO) == 1,
                              read_clock,
                              {terminal_width(), wants_colour()},
                              "mitefall",
                              isatty(STDIN_FILENO) == 1 ? &std::cin : nullptr};
    if (const auto typed = environment("MITEFALL_TYPED"); !typed.empty()) surroundings.program = typed;
    const int code = run({argv + 1, argv + argc}, surroundings);
    std::cout.flush();
    if (!std::cout) {
        std::cerr << "mitefall: the answer could not be written\n";
        return exit_code_of(base::ErrorKind::system);
    }
    return code;
}

}  // namespace mitefall::cli
