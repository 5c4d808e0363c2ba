#pragma once

#include <array>
#include <optional>
#include <string_view>

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
inline constexpr std::size_t stage_total = 14;

inline constexpr std::array<Stage, stage_total> all_stages{
    Stage::egg,
    Stage::larva,
    Stage::protonymph_seeking,
    Stage::protonymph_feeding,
    Stage::deutonymph,
    Stage::adult_seeking_1,
    Stage::adult_feeding_1,
    Stage::adult_laying_1,
    Stage::adult_seeking_2,
    Stage::adult_feeding_2,
    Stage::adult_laying_2,
    Stage::adult_seeking_3,
    Stage::adult_feeding_3,
    Stage::adult_laying_3,
};

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

[[nodiscard]] std::string_view to_text(Stage stage);  ///< "egg", ..., "adult-seeking-1"
[[nodiscard]] std::optional<Stage> stage_from_text(std::string_view text);
[[nodiscard]] std::string_view to_text(Reach reach);  ///< "on-animal", "mobile-nest", "eggs"

}  // namespace mitefall::mites
