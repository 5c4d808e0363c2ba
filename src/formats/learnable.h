#pragma once

#include <string_view>

#include "base/vocabulary.h"

namespace mitefall::formats {

/// How far a keeper can find out at home what a drawn parameter is in this collection.
enum class Learnable { yes, roughly, no };

struct Lesson {
    Learnable how_far = Learnable::no;
    std::string_view text;  ///< what to do, or why it cannot be known
};

/// Of a drawn parameter, by its evidence key; for a key without one "no".
[[nodiscard]] Lesson lesson_of(std::string_view key);

/// Whether the table has a line for the key.
[[nodiscard]] bool has_lesson(std::string_view key);

using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(Learnable) {
    using enum Learnable;
    return base::vocabulary("answer to whether it can be learned", yes, "yes", roughly, "roughly", no, "no");
}

}  // namespace mitefall::formats
