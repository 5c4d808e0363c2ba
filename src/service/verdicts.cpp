#include "service/verdicts.h"

namespace mitefall::service {

std::vector<safety::Verdict> verdicts_of(const Situation& situation, units::Strength strength) {
    const Knowledge& knowledge = situation.knowledge();
    return safety::judge_all(situation.collection(), strength, situation.today(), knowledge.tables,
                             knowledge.taxa, {});
}

std::vector<worklist::MistOnAnimal> mists_of(const Situation& situation, units::Strength strength) {
    return worklist::mist_on_animals(situation.judged(), strength, situation.today());
}

std::vector<safety::Caution> spray_cautions(const Knowledge& knowledge) {
    return safety::cautions_for(records::Method::spray_animal, knowledge.tables);
}

}  // namespace mitefall::service
