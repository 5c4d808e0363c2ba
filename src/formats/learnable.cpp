#include "formats/learnable.h"

#include <algorithm>
#include <array>

namespace mitefall::formats {
namespace {

struct LessonRow {
    std::string_view key;
    Lesson lesson;
};

constexpr std::string_view inside_the_mite =
    "This takes mites bred in a laboratory; nobody can measure it at home.";
constexpr std::string_view which_humidity =
    "Not the figure itself. A hygrometer where the animal lies tells how far the dry or the humid one "
    "counts: keep the humidity on record right.";
constexpr std::string_view hidden = "Not at home: what sits out of sight cannot be counted.";
constexpr std::string_view finding = "Not at home: how fast a mite finds the animal cannot be watched.";
constexpr std::string_view walking =
    "A strip of sticky tape around the enclosure for a week shows whether mites walk out at all, not how "
    "many in a hundred.";
constexpr std::string_view carrying =
    "Not at home: one mite in some dozens carried over goes unseen. Clean hands, tools and bags make it "
    "small.";
constexpr std::string_view spraying =
    "Count the mites you can see on the animal before the spraying and a day after it, the same way both "
    "times. The part that is gone is a rough figure.";
constexpr std::string_view trapping =
    "Count mites under the paper or on a sticky trap the day before and the day after. The part that is "
    "gone is a rough figure.";
constexpr std::string_view fading = "Not at home: nothing shows how much of a residue still acts.";
constexpr std::string_view changing =
    "Not at home: what stays behind after the change is what nobody sees. Empty and wipe every hide and "
    "corner to make it large.";
constexpr std::string_view left_behind =
    "Not at home: what comes along into the clean tub is what nobody sees. Take nothing over and wash your "
    "hands between the tubs to make it small.";
constexpr std::string_view shaken_out =
    "Knock the thing out over white paper in a tray of soapy water and count; compare with what is under the "
    "paper of the enclosure.";
constexpr std::string_view looking =
    "Let a second person check the same animals right after you, without being told. Mites only one of you "
    "found show how many are missed.";

constexpr Lesson no(std::string_view text) { return {Learnable::no, text}; }
constexpr Lesson roughly(std::string_view text) { return {Learnable::roughly, text}; }

constexpr std::array lessons{
    LessonRow{"erlang_shape", no(inside_the_mite)},
    LessonRow{"egg_survival_humid", no(which_humidity)},
    LessonRow{"egg_survival_dry", no(which_humidity)},
    LessonRow{"larva_survival", no(inside_the_mite)},
    LessonRow{"deutonymph_survival", no(inside_the_mite)},
    LessonRow{"unfed_protonymph_life", no(inside_the_mite)},
    LessonRow{"unfed_adult_life", no(inside_the_mite)},
    LessonRow{"unfed_life_q10", no(inside_the_mite)},
    LessonRow{"unfed_life_dry_factor", no(which_humidity)},
    LessonRow{"host_finding_protonymph", no(finding)},
    LessonRow{"host_finding_adult", no(finding)},
    LessonRow{"adult_feeding_time", no(inside_the_mite)},
    LessonRow{"laying_time", no(inside_the_mite)},
    LessonRow{"eggs_per_meal", no(inside_the_mite)},
    LessonRow{"daughters_per_egg", no(inside_the_mite)},
    LessonRow{"meals_per_life", no(inside_the_mite)},
    LessonRow{"adult_survival_per_cycle", no(inside_the_mite)},
    LessonRow{"leaving_rate", roughly(walking)},
    LessonRow{"entering_rate", no(hidden)},
    LessonRow{"room_crossing_rate", roughly(walking)},
    LessonRow{"contact_handled_after", no(carrying)},
    LessonRow{"contact_shared_item", no(carrying)},
    LessonRow{"contact_shared_bag", no(carrying)},
    LessonRow{"kill_spray_on_animal_home", roughly(spraying)},
    LessonRow{"kill_spray_on_animal_published", roughly(spraying)},
    LessonRow{"kill_spray_nest_home_sealed", roughly(trapping)},
    LessonRow{"kill_spray_nest_home_porous", roughly(trapping)},
    LessonRow{"kill_spray_nest_published_sealed", roughly(trapping)},
    LessonRow{"kill_spray_nest_published_porous", roughly(trapping)},
    LessonRow{"damp_hazard_home", no(fading)},
    LessonRow{"damp_hazard_published", no(fading)},
    LessonRow{"residual_half_life", no(fading)},
    LessonRow{"kill_permethrin_nest_sealed", roughly(trapping)},
    LessonRow{"kill_permethrin_nest_porous", roughly(trapping)},
    LessonRow{"kill_room_treatment", roughly(trapping)},
    LessonRow{"substrate_nest_sealed", no(changing)},
    LessonRow{"substrate_nest_porous", no(changing)},
    LessonRow{"substrate_eggs_sealed", no(changing)},
    LessonRow{"substrate_eggs_porous", no(changing)},
    LessonRow{"kill_soak",
              roughly("Count the mites drowned in the water and those still on the animal after it.")},
    LessonRow{"kill_wipe", roughly("Count the mites on the cloth and those still on the animal after it.")},
    LessonRow{"oral_kill_per_meal",
              no("Ask the veterinarian who ordered it what is known of its effect on mites.")},
    LessonRow{"detection_light", roughly(looking)},
    LessonRow{"detection_nest_part", roughly(looking)},
    LessonRow{"detection_light_soak", roughly(looking)},
    LessonRow{"detection_light_wipe", roughly(looking)},
    LessonRow{"detection_paper_trap", no("Not at home: what walks past the trap is not seen.")},
    LessonRow{"arrival_carries",
              no("Not at home: it takes many arrivals to know how often one brings mites.")},
    LessonRow{"arrival_founders", no("Not at home: by the time mites are seen they have bred.")},
    LessonRow{"clear_head_taken",
              roughly("Count the mites on the cotton bud and those still on the animal after it.")},
    LessonRow{"nest_in_thing", roughly(shaken_out)},
    LessonRow{"nest_on_thing", roughly(shaken_out)},
    LessonRow{"fresh_tub_nest", no(left_behind)},
    LessonRow{"fresh_tub_eggs", no(left_behind)},
    LessonRow{"sighting_quantile",
              {Learnable::yes,
               "Look again, count every mite you can see, and record it as a sighting of its own."}},
};

const LessonRow* find(std::string_view key) {
    const auto* const found =
        std::find_if(lessons.begin(), lessons.end(), [&](const LessonRow& row) { return row.key == key; });
    return found == lessons.end() ? nullptr : found;
}

}  // namespace

Lesson lesson_of(std::string_view key) {
    const LessonRow* const row = find(key);
    return row == nullptr ? no(inside_the_mite) : row->lesson;
}

bool has_lesson(std::string_view key) { return find(key) != nullptr; }

}  // namespace mitefall::formats
