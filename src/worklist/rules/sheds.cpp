#include "safety/shed.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist::rules {

std::vector<ShedQuestion> sheds(const Workday& day) {
    const auto& treated = day.assignment().enclosures;
    const auto& [sighted, exposed, quarantined] = day.danger();
    std::set<records::EnclosureId> asked(treated.begin(), treated.end());
    asked.insert(sighted.begin(), sighted.end());
    asked.insert(exposed.begin(), exposed.end());
    std::vector<ShedQuestion> questions;
    for (const auto& [id, animal] : day.collection().animals) {
        const auto awaited = safety::shed_awaited(animal, day.today(), day.tables());
        if (!awaited || !awaited->ask_from || !asked.contains(animal.enclosure)) continue;
        if (*awaited->ask_from <= day.today()) questions.push_back({id, animal.enclosure, awaited->since});
    }
    return questions;
}

}  // namespace mitefall::worklist::rules
