#include "formats/json/evidence.h"

#include "formats/json/parts.h"

namespace mitefall::formats {
namespace {

using evidence::Tag;

Json row_json(const evidence::Tables::Row& row) {
    return {{"key", row.cited.key},
            {"value", number(row.cited.value)},
            {"low", number(row.cited.low)},
            {"high", number(row.cited.high)},
            {"unit", row.unit},
            {"tag", evidence::to_text(row.cited.tag)},
            {"source", text_or_null(row.cited.source)},
            {"meaning", row.cited.meaning},
            {"file", row.file}};
}

Json tag_json(Tag tag) { return {{"tag", evidence::to_text(tag)}, {"meaning", evidence::explain(tag)}}; }

}  // namespace

Json evidence_json(const evidence::Tables& tables) {
    Json json{{"parameters", list(tables.rows(), row_json)}};
    json["sources"] = list(tables.sources(), [](const auto& source) {
        return Json{{"key", source.first}, {"citation", source.second}};
    });
    json["tags"] = list(base::all_of<Tag>(), tag_json);
    return json;
}

}  // namespace mitefall::formats
