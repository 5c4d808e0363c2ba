#include "service/cupboard.h"

#include "service/shopping.h"

namespace mitefall::service {
namespace {

using base::fail;
using base::Result;

void put_beside_course(worklist::Bottle& bottle, const Situation* situation) {
    if (!worklist::is_for_the_course(bottle)) return;
    bottle.no_course = worklist::NoCourse::no_plan;
    if (situation == nullptr || !situation->collection().plan) return;
    const auto list = shopping_of(*situation, worklist::course_bench(bottle));
    bottle.no_course = list ? worklist::NoCourse::none : worklist::NoCourse::not_sprayed;
    if (list) bottle.course = worklist::CourseTakes{list->totals.stock, list->totals.purchase};
}

Result<worklist::Bottle> bottle_of(const formats::LabelWords& words, const formats::LabelOptions& options,
                                   const Knowledge& knowledge, const Situation* situation) {
    auto label = formats::read_label(words, options);
    if (!label) return fail(label.error());
    auto ruling = safety::judge_label(*label, knowledge.ingredients, knowledge.tables);
    worklist::Bottle bottle = worklist::make_bottle(std::move(*label), std::move(ruling));
    put_beside_course(bottle, situation);
    return bottle;
}

}  // namespace

Result<worklist::Cupboard> cupboard_of(const CupboardQuestion& question, const Knowledge& knowledge,
                                       const Situation* situation) {
    auto first =
        bottle_of(question.first, {"--ingredient", "--is", "--pack", "--price"}, knowledge, situation);
    if (!first) return fail(first.error());
    worklist::Cupboard cupboard{std::move(*first), std::nullopt, std::nullopt};
    if (question.other.empty()) return cupboard;
    auto other = bottle_of(question.other, {"--or-ingredient", "--or-is", "--or-pack", "--or-price"},
                           knowledge, situation);
    if (!other) return fail(other.error());
    cupboard.compared = safety::compare_labels(cupboard.first.ruling, cupboard.first.label.form,
                                               other->ruling, other->label.form);
    cupboard.other = std::move(*other);
    return cupboard;
}

}  // namespace mitefall::service
