#pragma once

#include <optional>

#include "web/site.h"

// The answers, by what they do. Each takes the request and gives nullopt if it is not about it.
namespace mitefall::web {

/// What an answer may use.
struct Means {
    const Request& request;
    const Site::Parts& parts;
    Jobs& jobs;

    [[nodiscard]] bool is(std::string_view method, std::string_view path) const {
        return request.method == method && request.path == path;
    }
};

[[nodiscard]] std::optional<Response> answer_reading(const Means& means);
[[nodiscard]] std::optional<Response> answer_mixing(const Means& means);
[[nodiscard]] std::optional<Response> answer_writing(const Means& means);
[[nodiscard]] std::optional<Response> answer_jobs(const Means& means);
[[nodiscard]] std::optional<Response> answer_sharing(const Means& means);

[[nodiscard]] Response status_answer(const Means& means);

/// The body as one JSON object of the contract's size and depth.
[[nodiscard]] base::Result<formats::Json> read_body(const Request& request);

}  // namespace mitefall::web
