#pragma once

#include <tl/expected.hpp>

#include "base/error.h"

namespace mitefall::base {

/// A value, or the reason there is none.
template <class T>
using Result = tl::expected<T, Error>;

using Failure = tl::unexpected<Error>;

/// `return fail(error);` in a function that returns a Result.
[[nodiscard]] inline Failure fail(Error error) { return Failure(std::move(error)); }

}  // namespace mitefall::base
