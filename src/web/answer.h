#pragma once

#include <string_view>

#include "base/error.h"
#include "formats/json.h"
#include "web/message.h"

namespace mitefall::web {

/// 200 with the enveloped result.
[[nodiscard]] Response answer(std::string_view command, formats::Json result);
/// The status of the error's kind, with the enveloped error. Options are named without their dashes.
[[nodiscard]] Response failed(std::string_view command, base::Error error);
/// A refusal below the level of commands: another Host, no token, too many tries.
[[nodiscard]] Response refusal(int status, const base::Error& error);

}  // namespace mitefall::web
