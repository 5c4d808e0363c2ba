#include "web/answer.h"

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

Response as_json(int status, const formats::Json& json) {
    Response response;
    response.status = status;
    response.body = json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
    return response;
}

}  // namespace

Response answer(std::string_view command, formats::Json result) {
    return as_json(200, formats::envelope(command, std::move(result)));
}

Response failed(std::string_view command, base::Error error) {
    error.where = field_name(error.where);
    return as_json(status_of(error.kind), formats::error_envelope(command, error));
}

Response refusal(int status, const base::Error& error) {
    return as_json(status, formats::error_envelope("serve", error));
}

}  // namespace mitefall::web
