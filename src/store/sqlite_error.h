#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <string>
#include <type_traits>

#include "base/result.h"

namespace mitefall::store {

/// What a failure of the database means to the keeper of the file at `path`.
[[nodiscard]] base::Error explain_failure(const SQLite::Exception& fault, const std::string& path);

/// Runs `work`, which returns a Result, and turns what it throws into an error.
template <class Work>
[[nodiscard]] std::invoke_result_t<Work> guarded(const std::string& path, Work work) {
    try {
        return work();
    } catch (const SQLite::Exception& fault) {
        return base::fail(explain_failure(fault, path));
    } catch (const std::bad_alloc&) {
        return base::fail(
            {base::ErrorKind::system, "out of memory", path, "", "close other programs and try again", {}});
    }
}

}  // namespace mitefall::store
