#pragma once

#include <functional>

#include "web/routes.h"

// Requests that put something on record. Each carries a key of its own, so that one sent again because its
// answer was lost is answered as the first time.
namespace mitefall::web {

/// What a request will do once it is read. Run with no other writer in between.
using Deed = std::function<base::Result<formats::Json>(service::Keeper&)>;

struct Writing {
    std::string_view path;
    std::string_view command;
    base::Result<Deed> (*read)(const Means&, const formats::Json&, const service::Now&);
};

/// Reads what is asked, does it once, and answers.
[[nodiscard]] Response answer_once(const Means& means, const Writing& writing);

/// {"ids": [...]}
[[nodiscard]] formats::Json ids_json(const std::vector<records::FactId>& ids);

}  // namespace mitefall::web
