#include "formats/json_parts.h"

namespace mitefall::formats {
namespace {

Json reason_json(const safety::Reason& reason) {
    return {{"ruling", safety::to_text(reason.ruling)},
            {"text", reason.text},
            {"tag", evidence::to_text(reason.tag)},
            {"source", text_or_null(reason.source)},
            {"until", date(reason.until)},
            {"remedy", text_or_null(reason.remedy)},
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
