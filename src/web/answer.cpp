#include "web/answer.h"

#include <fmt/format.h>

#include <algorithm>

namespace mitefall::web {
namespace {

int status_of(base::ErrorKind kind) {
    using base::ErrorKind;
    switch (kind) {
        case ErrorKind::invalid_input: return 400;
        case ErrorKind::not_found: return 404;
        case ErrorKind::already_exists:
        case ErrorKind::conflict: return 409;
        case ErrorKind::refused: return 403;
        case ErrorKind::unsupported: return 422;
        case ErrorKind::damaged:
        case ErrorKind::system: return 500;
    }
    return 500;
}

/// "--made-with" -> "made_with", "BATCH" -> "batch": the names the web uses.
std::string field_name(const std::string& option) {
    const bool is_option = option.starts_with("--");
    const bool is_position = !option.empty() && std::all_of(option.begin(), option.end(),
                                                            [](char c) { return c >= 'A' && c <= 'Z'; });
    if (!is_option && !is_position) return option;
    std::string name = is_option ? option.substr(2) : option;
    for (char& c : name) c = c == '-' ? '_' : (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
    return name;
}

/// Bytes of the character that begins the text, by its first byte (RFC 3629); 1 where that begins none.
std::size_t size_of_character(std::string_view text) {
    const auto first = static_cast<unsigned char>(text.front());
    const std::size_t size = first < 0xC2 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : first < 0xF5 ? 4 : 1;
    const auto follows = [&](std::size_t i) {
        return i < text.size() && (static_cast<unsigned char>(text[i]) & 0xC0U) == 0x80U;
    };
    for (std::size_t i = 1; i < size; ++i) {
        if (!follows(i)) return 1;
    }
    return size;
}

/// Neither a control character (Unicode Cc) nor one that turns the direction of a line (UAX 9).
bool is_plain(std::string_view character) {
    const auto first = static_cast<unsigned char>(character.front());
    if (character.size() == 1) return first >= 0x20 && first < 0x7F;
    if (character.size() == 2 && first == 0xC2) return static_cast<unsigned char>(character[1]) >= 0xA0;
    const auto is_one_of = [&](std::string_view from, std::string_view to) {
        return character >= from && character <= to;
    };
    return !is_one_of("\u200E", "\u200F") && !is_one_of("\u202A", "\u202E") && !is_one_of("\u2066", "\u2069");
}

Response as_json(int status, const formats::Json& json) {
    Response response;
    response.status = status;
    response.body = json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
    return response;
}

}  // namespace

std::string excerpt(std::string_view text, std::size_t most_bytes) {
    constexpr std::size_t most_in_character = 4;  // RFC 3629
    std::string shown;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t size =
            std::min(size_of_character(text.substr(i, most_in_character)), text.size() - i);
        const std::string_view character = text.substr(i, size);
        std::string next;
        if (is_plain(character))
            next = character;
        else
            for (const char byte : character)
                next += fmt::format("\\x{:02x}", static_cast<unsigned char>(byte));
        if (shown.size() + next.size() > most_bytes) return shown + "...";
        shown += next;
        i += size;
    }
    return shown;
}

base::Error brief(base::Error error) {
    constexpr std::size_t most_place = 200;
    constexpr std::size_t most_sentence = 600;  // ours, with names of theirs in it
    error.value = excerpt(error.value);
    error.where = excerpt(error.where, most_place);
    for (std::string* const sentence : {&error.what, &error.limit, &error.remedy})
        *sentence = excerpt(*sentence, most_sentence);
    return error;
}

Response answer(std::string_view command, formats::Json result) {
    return as_json(200, formats::envelope(command, std::move(result)));
}

Response failed(std::string_view command, base::Error error) {
    error.where = field_name(error.where);
    return as_json(status_of(error.kind), formats::error_envelope(command, brief(std::move(error))));
}

Response refusal(int status, const base::Error& error) {
    return as_json(status, formats::error_envelope("serve", brief(error)));
}

}  // namespace mitefall::web
