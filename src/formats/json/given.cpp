#include "formats/json/given.h"

#include "formats/json/parts.h"
#include "words/undo.h"

namespace mitefall::formats {

Json given_json(const records::Given& given, const records::Collection& names) {
    const auto row = [&](const records::Entry& entry) -> Json {
        const auto* const treated = std::get_if<records::Treated>(&entry.fact);
        return {
            {"entry", entry.id},
            {"day", date(entry.day)},
            {"kind", records::kind_of(entry.fact)},
            {"method", treated == nullptr ? Json(nullptr) : Json(records::to_text(treated->method))},
            {"strength_mg_per_l", treated == nullptr ? Json(nullptr) : strength_or_null(treated->strength)},
            {"text", words::deed_of(entry.fact, names)}};
    };
    return {
        {"animal", name(given.animal)},       {"name", given.name},   {"taxon", text_or_null(given.taxon)},
        {"from", date(given.from)},           {"to", date(given.to)}, {"died", date(given.died)},
        {"entries", list(given.entries, row)}};
}

}  // namespace mitefall::formats
