#pragma once

#include <string>
#include <string_view>

#include "base/result.h"

namespace mitefall::formats {

/// Puts the name of the option or field in front of an error.
template <class T>
base::Result<T> for_option(std::string_view option, base::Result<T> value) {
    if (value) return value;
    base::Error error = value.error();
    error.where = std::string(option);
    return base::fail(std::move(error));
}

}  // namespace mitefall::formats
