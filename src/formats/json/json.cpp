#include "formats/json/json.h"

#include <fmt/format.h>

namespace mitefall::formats {

Json envelope(std::string_view command, Json result) {
    return {{"mitefall", 1}, {"command", command}, {"result", std::move(result)}};
}

Json error_envelope(std::string_view command, const base::Error& error) {
    return {{"mitefall", 1}, {"command", command}, {"error", error_json(error)}};
}

Json error_json(const base::Error& error) {
    return {{"kind", base::to_text(error.kind)},
            {"what", error.what},
            {"value", error.value},
            {"limit", error.limit},
            {"remedy", error.remedy},
            {"where", error.where},
            {"message", error.message()}};
}

namespace {

/// Control characters and marks of direction stand in JSON as they are, and a terminal obeys them: C1, and
/// what begins with the bytes E2 80, E2 81 or D8 9C. They occur in strings only, where \u means the same.
std::string without_commands(const std::string& json) {
    std::string text;
    text.reserve(json.size());
    for (std::size_t i = 0; i < json.size(); ++i) {
        const auto byte = [&](std::size_t at) {
            return at < json.size() ? static_cast<unsigned char>(json[at]) : 0U;
        };
        unsigned code = 0;
        std::size_t length = 1;
        if (byte(i) == 0x7F) code = 0x7F;
        if (byte(i) == 0xC2 && byte(i + 1) < 0xA0) {
            code = byte(i + 1);
            length = 2;
        } else if (byte(i) == 0xD8 && byte(i + 1) == 0x9C) {
            code = 0x061C;
            length = 2;
        } else if (byte(i) == 0xE2 && (byte(i + 1) == 0x80 || byte(i + 1) == 0x81)) {
            const unsigned third = 0x2000U + ((byte(i + 1) & 1U) << 6U) + (byte(i + 2) & 0x3FU);
            const bool obeyed = third == 0x200E || third == 0x200F || (third >= 0x2028 && third <= 0x202E) ||
                                (third >= 0x2066 && third <= 0x2069);
            code = obeyed ? third : 0;
            length = 3;
        }
        if (code == 0) {
            text += json[i];
            continue;
        }
        text += fmt::format("\\u{:04x}", code);
        i += length - 1;
    }
    return text;
}

}  // namespace

std::string write_json(const Json& json) {
    return without_commands(json.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

}  // namespace mitefall::formats
