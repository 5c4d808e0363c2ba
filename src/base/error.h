#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "base/vocabulary.h"

namespace mitefall::base {

/// What kind of thing went wrong. The command line maps each to one exit code (docs/exit-codes.md),
/// so a value, once published, is never re-used.
enum class ErrorKind {
    invalid_input,   ///< a value is outside what is possible or permitted
    not_found,       ///< a name or file does not exist
    already_exists,  ///< the name or file is taken
    conflict,        ///< the fact contradicts what is on record
    refused,         ///< a safety rule forbids it
    unsupported,     ///< a file from a newer version, or a request outside the model
    damaged,         ///< a file that should be ours cannot be read
    system,          ///< the disk, the database or the network failed
};

[[nodiscard]] constexpr auto vocabulary_of(ErrorKind) {
    using enum ErrorKind;
    return vocabulary("kind of error", invalid_input, "invalid-input", not_found, "not-found", already_exists,
                      "already-exists", conflict, "conflict", refused, "refused", unsupported, "unsupported",
                      damaged, "damaged", system, "system");
}

/// An error a keeper can act on: what was asked, the value given, the limit it broke, what to do next.
struct Error {
    ErrorKind kind = ErrorKind::invalid_input;
    std::string what;    ///< what is wrong, in one clause
    std::string value;   ///< the offending value as given; may be empty
    std::string limit;   ///< the limit and where it comes from; may be empty
    std::string remedy;  ///< what to do next; may be empty
    std::string where;   ///< file, line, key or field; may be empty

    /// One sentence per part, ready to print.
    [[nodiscard]] std::string message() const;
};

/// The usual case: an unacceptable value.
[[nodiscard]] Error invalid(std::string what, std::string value, std::string limit, std::string remedy = {});

}  // namespace mitefall::base
