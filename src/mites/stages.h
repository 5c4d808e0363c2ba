#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "base/vocabulary.h"

namespace mitefall::mites {

/// Most meals of a female that the model follows.
inline constexpr int meal_count = 3;

/// The female line, in order of life. Adult stages are repeated for each meal.
enum class Stage {
    egg,
    larva,
    protonymph_seeking,
    protonymph_feeding,
    deutonymph,
    adult_seeking_1,
    adult_feeding_1,
    adult_laying_1,
    adult_seeking_2,
    adult_feeding_2,
    adult_laying_2,
    adult_seeking_3,
    adult_feeding_3,
    adult_laying_3,
};
[[nodiscard]] constexpr auto vocabulary_of(Stage) {
    using enum Stage;
    return base::vocabulary(
        "stage", egg, "egg", larva, "larva", protonymph_seeking, "protonymph-seeking", protonymph_feeding,
        "protonymph-feeding", deutonymph, "deutonymph", adult_seeking_1, "adult-seeking-1", adult_feeding_1,
        "adult-feeding-1", adult_laying_1, "adult-laying-1", adult_seeking_2, "adult-seeking-2",
        adult_feeding_2, "adult-feeding-2", adult_laying_2, "adult-laying-2", adult_seeking_3,
        "adult-seeking-3", adult_feeding_3, "adult-feeding-3", adult_laying_3, "adult-laying-3");
}
using base::from_text;
using base::to_text;

inline constexpr auto all_stages = base::all_of<Stage>();
inline constexpr std::size_t stage_total = all_stages.size();

/// What a stage does, whichever meal it belongs to.
enum class Activity {
    egg,
    larva,
    protonymph_seeking,
    protonymph_feeding,
    deutonymph,
    adult_seeking,
    adult_feeding,
    adult_laying
};

[[nodiscard]] constexpr Activity activity_of(Stage stage) {
    const auto index = static_cast<int>(stage);
    return index < 5 ? static_cast<Activity>(index) : static_cast<Activity>(5 + (index - 5) % 3);
}

/// 1 to 3 for adults, 0 before.
[[nodiscard]] constexpr int meal_of(Stage stage) {
    const auto index = static_cast<int>(stage);
    return index < 5 ? 0 : 1 + (index - 5) / 3;
}

[[nodiscard]] constexpr Stage next_stage(Stage stage) {
    return static_cast<Stage>(static_cast<int>(stage) + 1);
}

[[nodiscard]] constexpr bool is_on_animal(Activity a) {
    return a == Activity::protonymph_feeding || a == Activity::adult_feeding;
}
[[nodiscard]] constexpr bool is_seeking(Activity a) {
    return a == Activity::protonymph_seeking || a == Activity::adult_seeking;
}
/// Stages that wander out of an enclosure.
[[nodiscard]] constexpr bool wanders(Activity a) { return is_seeking(a) || a == Activity::adult_laying; }
/// What a look shows off the animal: walking adults. Nymphs are too small and pale.
[[nodiscard]] constexpr bool shows_off_animal(Activity a) {
    return a == Activity::adult_seeking || a == Activity::adult_laying;
}
/// What a look at the animal, or off it, can show at all.
[[nodiscard]] constexpr bool can_be_seen(Activity a, bool on_animal) {
    return on_animal ? is_on_animal(a) : shows_off_animal(a);
}
/// Stages that can be found in a room: wanderers, and the eggs and larvae they leave.
[[nodiscard]] constexpr bool lives_in_room(Activity a) {
    return wanders(a) || a == Activity::egg || a == Activity::larva;
}

/// Which mites an action reaches.
enum class Reach { on_animal, mobile_nest, eggs };

[[nodiscard]] constexpr bool reaches(Reach reach, Activity a) {
    switch (reach) {
        case Reach::on_animal: return is_on_animal(a);
        case Reach::mobile_nest: return !is_on_animal(a) && a != Activity::egg;
        case Reach::eggs: return a == Activity::egg;
    }
    return false;
}

[[nodiscard]] constexpr auto vocabulary_of(Reach) {
    using enum Reach;
    return base::vocabulary("reach", on_animal, "on-animal", mobile_nest, "mobile-nest", eggs, "eggs");
}

}  // namespace mitefall::mites
