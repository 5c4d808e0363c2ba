#include "cli/input.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iostream>

namespace mitefall::cli {
namespace {

using base::ErrorKind;
using base::fail;
using base::Result;

Result<std::string> read_up_to_limit(std::istream& stream, const std::string& name) {
    constexpr std::size_t at_once = 64UL << 10U;
    std::string text;
    std::string part(at_once, '\0');
    while (stream.read(part.data(), static_cast<std::streamsize>(part.size())), stream.gcount() > 0) {
        text.append(part, 0, static_cast<std::size_t>(stream.gcount()));
        if (text.size() <= most_input_bytes) continue;
        return fail({ErrorKind::invalid_input, "the file is too large",
                     fmt::format("more than {} bytes", most_input_bytes),
                     fmt::format("{} bytes (4 MB)", most_input_bytes),
                     "give the file that was meant, or split it", name});
    }
    return text;
}

}  // namespace

Result<std::string> read_input(const std::string& path) {
    if (path == "-") return read_up_to_limit(std::cin, "standard input");
    const auto unreadable = [&](std::string what) {
        return fail({ErrorKind::not_found, std::move(what), path, {}, "check the name", {}});
    };
    std::error_code ignored;
    if (std::filesystem::is_directory(path, ignored)) return unreadable("this is a folder, not a file");
    std::ifstream file(path, std::ios::binary);
    if (!file) return unreadable("the file cannot be read");
    return read_up_to_limit(file, path);
}

}  // namespace mitefall::cli
