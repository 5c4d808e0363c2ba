#include "formats/json/verdicts.h"

#include "formats/json/parts.h"
#include "formats/json/statement.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

Json verdict_json(const safety::Verdict& verdict) {
    return {{"animal", name(verdict.animal)},
            {"method", records::to_text(verdict.method)},
            {"ruling", safety::to_text(verdict.ruling)},
            {"permitted", safety::permits(verdict)},
            {"until", date(verdict.until)},
            {"reasons", list(verdict.reasons, reason_json)},
            {"cautions", list(verdict.cautions, caution_json)}};
}

}  // namespace

Json verdicts_json(const std::vector<safety::Verdict>& verdicts) {
    return {{"verdicts", list(verdicts, verdict_json)}};
}

/// The verdicts of one animal stand together, in the same order of methods for all.
Json rulings_json(const std::vector<safety::Verdict>& verdicts, units::Strength strength) {
    Json methods = Json::array();
    Json animals = Json::array();
    for (const safety::Verdict& verdict : verdicts) {
        if (animals.empty() || animals.back()["animal"] != verdict.animal.text())
            animals.push_back({{"animal", name(verdict.animal)}, {"rulings", Json::array()}});
        if (animals.size() == 1) methods.push_back(records::to_text(verdict.method));
        animals.back()["rulings"].push_back(
            {{"ruling", safety::to_text(verdict.ruling)}, {"until", date(verdict.until)}});
    }
    return {{"strength_mg_per_l", number(units::in_milligrams_per_litre(strength))},
            {"methods", std::move(methods)},
            {"animals", std::move(animals)}};
}

}  // namespace mitefall::formats
