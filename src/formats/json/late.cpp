#include "formats/json/late.h"

#include "formats/json/parts.h"
#include "plan/course.h"

namespace mitefall::formats {
namespace {

using worklist::Late;
using worklist::LateDish;
using worklist::LateRound;
using worklist::Redated;

Json late_round_json(const LateRound& round) {
    return {{"number", round.number},         {"of", round.of},
            {"planned", date(round.planned)}, {"tasks", round.tasks},
            {"enclosures", round.enclosures}, {"done", round.done},
            {"today", round.today},           {"overtaken", round.overtaken}};
}

Json dish_json(const LateDish& dish) {
    return {
        {"enclosure", name(dish.enclosure)}, {"since", date(dish.since)}, {"back_by", date(dish.back_by)}};
}

Json held_json(const worklist::HeldRound& held) {
    return {{"planned", date(held.planned)}, {"day", date(held.day)}};
}

Json choice_json(const std::optional<Redated>& course) {
    if (!course) return nullptr;
    return {{"rounds", dates(course->rounds)},
            {"held", list(course->held, held_json)},
            {"given_up", dates(course->given_up)}};
}

Json band_or_null(const std::optional<base::Band>& band) { return band ? band_json(*band) : Json(nullptr); }

}  // namespace

Json late_json(const Late& late) {
    if (!late.is_any()) return nullptr;
    const Json check = late.check ? Json{{"planned", date(late.check->planned)},
                                         {"enclosures", names(late.check->enclosures)}}
                                  : Json(nullptr);
    return {{"dishes", list(late.dishes, dish_json)},
            {"rounds", list(late.rounds, late_round_json)},
            {"check", check},
            {"today", choice_json(late.today)},
            {"move", choice_json(late.move)},
            {"least_days_apart", plan::shortest_interval}};
}

Json late_chances_json(const LateChancesView& chances) {
    return {{"stood_on", date(chances.stood_on)},
            {"stood", band_or_null(chances.stood)},
            {"today", band_json(chances.today)},
            {"move", band_or_null(chances.move)}};
}

}  // namespace mitefall::formats
