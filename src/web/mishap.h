#pragma once

#include <functional>
#include <optional>

#include "base/error.h"
#include "web/desk.h"

// What a reader is told when something was thrown that nobody expected.
namespace mitefall::web {

/// To be called where an exception is being handled. A broken promise of ours while the records are read
/// means that the file holds what it should not: then the error is `damaged`, and names the first entry with
/// which the records can no longer be read. Anything else is a defect, or a system without memory or
/// descriptors. No text of the exception itself is told.
[[nodiscard]] base::Error what_went_wrong(const Desk& desk);

/// The first of `entries` (counted from 0) with which, and after which, they can no longer be read; nullopt:
/// all can. `can_be_read`: whether that many from the first on can.
[[nodiscard]] std::optional<std::size_t> first_unreadable(
    std::size_t entries, const std::function<bool(std::size_t)>& can_be_read);

}  // namespace mitefall::web
