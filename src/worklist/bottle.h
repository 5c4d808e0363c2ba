#pragma once

#include <optional>

#include "base/vocabulary.h"
#include "mixing/label.h"
#include "safety/cupboard.h"
#include "worklist/shopping.h"

// A bottle of the cupboard, and what it would do for the course.
namespace mitefall::worklist {

/// What a bottle makes once it is thinned to what it is used at.
struct ReadyToUse {
    units::Strength strength;
    double parts = 1;                                ///< one part of the bottle in so many
    std::optional<units::Volume> volume;             ///< of one bottle; none: its size is not told
    std::optional<mixing::Money> price_per_litre{};  ///< of what is ready, rounded up to a minor unit
};

/// Why nothing is told of how much the course takes.
enum class NoCourse { none, no_plan, not_sprayed, other_agent };
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(NoCourse) {
    using enum NoCourse;
    return base::vocabulary("reason without a course", none, "", no_plan, "no-plan", not_sprayed,
                            "not-sprayed", other_agent, "other-agent");
}

/// What the adopted course takes of it.
struct CourseTakes {
    units::Volume stock;
    std::optional<mixing::Purchase> purchase;  ///< whole bottles; none: its size is not told
};

struct Bottle {
    mixing::Label label;
    safety::LabelRuling ruling;
    std::optional<ReadyToUse> ready;
    std::optional<CourseTakes> course;
    NoCourse no_course = NoCourse::other_agent;
};

/// Without the course.
[[nodiscard]] Bottle make_bottle(mixing::Label label, safety::LabelRuling ruling);

/// Whether a spray of the adopted course may be mixed from it: then `course_bench` says with what.
[[nodiscard]] bool is_for_the_course(const Bottle& bottle);
[[nodiscard]] Bench course_bench(const Bottle& bottle);

/// Two bottles, or one.
struct Cupboard {
    Bottle first;
    std::optional<Bottle> other;
    std::optional<safety::LabelComparison> compared;
};

}  // namespace mitefall::worklist
