#pragma once

#include <string>
#include <string_view>

#include "base/error.h"
#include "formats/json/json.h"
#include "web/message.h"

namespace mitefall::web {

/// What somebody sent, as far as an answer repeats it: at most so many bytes of whole characters, then "...".
/// What could command a terminal or turn the line around is written as its number, "\x1b".
[[nodiscard]] std::string excerpt(std::string_view text, std::size_t most_bytes = 100);
/// The error with nothing in it longer than an excerpt.
[[nodiscard]] base::Error brief(base::Error error);

/// 200 with the enveloped result.
[[nodiscard]] Response answer(std::string_view command, formats::Json result);
/// The status of the error's kind, with the enveloped error. Options are named without their dashes.
[[nodiscard]] Response failed(std::string_view command, base::Error error);
/// A refusal below the level of commands: another Host, no token, too many tries.
[[nodiscard]] Response refusal(int status, const base::Error& error);

}  // namespace mitefall::web
