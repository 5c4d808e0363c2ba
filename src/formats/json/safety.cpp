#include "formats/json/parts.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

Json reason_json(const safety::Reason& reason) {
    return {{"ruling", safety::to_text(reason.ruling)},
            {"rule", reason.what.id},
            {"args", arguments_json(reason.what)},
            {"text", words::say(reason.what)},
            {"tag", evidence::to_text(reason.tag)},
            {"source", text_or_null(reason.source)},
            {"until", date(reason.until)},
            {"remedy", text_or_null(words::say(reason.remedy))},
            {"remedy_rule", text_or_null(std::string(reason.remedy.id))},
            {"remedy_args", arguments_json(reason.remedy)},
            {"needs_fact", reason.needs_fact}};
}

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

}  // namespace mitefall::formats
