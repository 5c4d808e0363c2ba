#pragma once

#include <span>

#include "words/words.h"

// The sentences in English.
namespace mitefall::words::en {

[[nodiscard]] std::span<const Sentence> safety();

}  // namespace mitefall::words::en
