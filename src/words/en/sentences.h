#pragma once

#include <span>

#include "words/words.h"

// The sentences in English.
namespace mitefall::words::en {

[[nodiscard]] std::span<const Sentence> safety();
[[nodiscard]] std::span<const Sentence> work();

}  // namespace mitefall::words::en
