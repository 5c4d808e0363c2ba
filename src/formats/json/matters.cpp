#include "formats/json/matters.h"

#include <vector>

#include "formats/json/parts.h"
#include "formats/learnable.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using forecast::Influence;

Json influence_json(const Influence& influence, const MattersView& view) {
    const ParameterLabel label = label_of(influence.key, view.tables);
    const Lesson lesson = lesson_of(influence.key);
    return {{"key", influence.key},
            {"meaning", label.meaning},
            {"unit", label.unit},
            {"explained", number(influence.explained)},
            {"direction", number(influence.direction)},
            {"low_up_to", number(influence.low_up_to)},
            {"clear_if_low", number(influence.if_low)},
            {"high_from", number(influence.high_from)},
            {"clear_if_high", number(influence.if_high)},
            {"can_be_learned", to_text(lesson.how_far)},
            {"how", lesson.text}};
}

}  // namespace

Json matters_json(const MattersView& view) {
    const auto influences = [&](const std::vector<Influence>& from) {
        return list(from, [&](const Influence& influence) { return influence_json(influence, view); });
    };
    Json json{{"plan", words::say(view.plan)}};
    json["adopted"] = view.adopted;
    json["clear"] = band_json(view.clear);
    json["effective_draws"] = number(view.sensitivity.effective_draws);
    json["chance_level"] = number(view.sensitivity.chance_level);
    json["matters"] = influences(view.sensitivity.named);
    json["rest"] = influences(view.sensitivity.rest);
    return json;
}

}  // namespace mitefall::formats
