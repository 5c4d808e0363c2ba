#pragma once

#include <span>

#include "words/words.h"

// The sentences in English.
namespace mitefall::words::en {

[[nodiscard]] std::span<const Sentence> safety();
[[nodiscard]] std::span<const Sentence> work();
[[nodiscard]] std::span<const Sentence> exposure();
[[nodiscard]] std::span<const Sentence> course();
[[nodiscard]] std::span<const Sentence> asked();
[[nodiscard]] std::span<const Sentence> changes();
[[nodiscard]] std::span<const Sentence> emptied();
[[nodiscard]] std::span<const Sentence> after();

}  // namespace mitefall::words::en
