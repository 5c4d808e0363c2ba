#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <stdexcept>
#include <string>
#include <type_traits>

#include "base/result.h"

namespace mitefall::store {

/// The file is not the one that was opened: moved, removed or replaced.
struct Gone : std::runtime_error {
    using std::runtime_error::runtime_error;
};

[[nodiscard]] base::Error explain_absence(const Gone& fault, const std::string& path);

/// What a failure of the database means to the keeper of the file at `path`.
[[nodiscard]] base::Error explain_failure(const SQLite::Exception& fault, const std::string& path);

/// Runs `work`, which returns a Result, and turns what it throws into an error.
template <class Work>
[[nodiscard]] std::invoke_result_t<Work> guarded(const std::string& path, Work work) {
    try {
        return work();
    } catch (const Gone& fault) {
        return base::fail(explain_absence(fault, path));
    } catch (const SQLite::Exception& fault) {
        return base::fail(explain_failure(fault, path));
    } catch (const std::bad_alloc&) {
        return base::fail(
            {base::ErrorKind::system, "out of memory", path, "", "close other programs and try again", {}});
    }
}

}  // namespace mitefall::store
