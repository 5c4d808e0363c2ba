#include <unistd.h>

#include <fmt/chrono.h>
#include <chrono>
#include <csignal>
#include <iostream>

#include "cli/app.h"

namespace {

mitefall::service::Now read_clock() {
    const auto now = std::chrono::system_clock::now();
    const std::time_t seconds = std::chrono::system_clock::to_time_t(now);
    std::tm local{};
    localtime_r(&seconds, &local);
    const auto date = std::chrono::year(local.tm_year + 1900) / (local.tm_mon + 1) / local.tm_mday;
    const auto fraction =
        std::chrono::duration_cast<std::chrono::microseconds>(now.time_since_epoch()).count() % 1'000'000;
    return {mitefall::units::Day(date),
            fmt::format("{:%Y-%m-%dT%H:%M:%S}.{:06}Z", fmt::gmtime(seconds), fraction)};
}

}  // namespace

int main(int argc, char** argv) {
    // A closed pipe ("mitefall journal | head") ends the program quietly.
    std::signal(SIGPIPE, SIG_DFL);
    std::ios::sync_with_stdio(false);
    mitefall::cli::Surroundings surroundings{std::cout,
                                             std::cerr,
                                             read_clock(),
                                             "collection.mitefall",
                                             isatty(STDERR_FILENO) == 1,
                                             read_clock,
                                             isatty(STDIN_FILENO) == 1 ? &std::cin : nullptr};
    const int code = mitefall::cli::run({argv + 1, argv + argc}, surroundings);
    std::cout.flush();
    if (!std::cout) {
        std::cerr << "mitefall: the answer could not be written\n";
        return mitefall::cli::exit_code_of(mitefall::base::ErrorKind::system);
    }
    return code;
}
