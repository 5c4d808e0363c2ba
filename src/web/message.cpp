#include "web/message.h"

#include <algorithm>
#include <charconv>

namespace mitefall::web {
namespace {

/// nullopt for a broken escape or a NUL byte.
std::optional<std::string> decoded(std::string_view text, bool plus_is_space) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '%') {
            plain += plus_is_space && text[i] == '+' ? ' ' : text[i];
            continue;
        }
        unsigned code = 0;
        const char* const begin = text.data() + i + 1;
        if (i + 2 >= text.size() || std::from_chars(begin, begin + 2, code, 16).ptr != begin + 2 || code == 0)
            return std::nullopt;
        plain += static_cast<char>(code);
        i += 2;
    }
    return plain.find('\0') == std::string::npos ? std::optional(plain) : std::nullopt;
}

bool add_field(std::string_view text, Fields& fields) {
    const auto equals = text.find('=');
    auto name = decoded(text.substr(0, equals), true);
    auto value = equals == std::string_view::npos ? std::optional<std::string>("")
                                                  : decoded(text.substr(equals + 1), true);
    if (!name || !value) return false;
    fields.emplace_back(std::move(*name), std::move(*value));
    return true;
}

}  // namespace

std::optional<std::string> find(const Fields& fields, std::string_view name) {
    const auto field =
        std::find_if(fields.begin(), fields.end(), [&](const auto& f) { return f.first == name; });
    return field == fields.end() ? std::nullopt : std::optional(field->second);
}

std::vector<std::string> find_all(const Fields& fields, std::string_view name) {
    std::vector<std::string> values;
    for (const auto& [key, value] : fields) {
        if (key == name) values.push_back(value);
    }
    return values;
}

std::optional<Target> read_target(std::string_view target) {
    if (target.empty() || target.front() != '/') return std::nullopt;
    const auto mark = target.find('?');
    auto path = decoded(target.substr(0, mark), false);
    if (!path) return std::nullopt;
    Target read{std::move(*path), {}};
    std::string_view rest = mark == std::string_view::npos ? std::string_view() : target.substr(mark + 1);
    while (!rest.empty()) {
        const auto end = rest.find('&');
        const std::string_view part = rest.substr(0, end);
        if (!part.empty() && !add_field(part, read.query)) return std::nullopt;
        rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
    }
    return read;
}

}  // namespace mitefall::web
