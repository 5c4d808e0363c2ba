#include "questions/import.h"
#include "tables/answer.h"
#include "web/wishes.h"
#include "web/writing.h"

// A table of animals: looked at, and put on record as a whole.
namespace mitefall::web {
namespace {

Result<Deed> import_table(const Means& means, const Json& body, const service::Now& now) {
    Members members(body);
    auto asked = read(questions::import_table(), members);
    if (!asked) return fail(asked.error());
    const service::Knowledge& knowledge = means.parts.desk->knowledge();
    return [asked = std::move(*asked), now, &knowledge](Keeper& keeper) -> Result<Json> {
        const tables::Wishes wishes = asked.wishes();
        const auto looked = tables::look_at(keeper, knowledge, asked.text, wishes, now);
        if (!looked) return fail(looked.error());
        Json json = tables::looked_json(*looked, knowledge.taxa);
        json["ids"] = Json::array();
        if (asked.dry_run) return json;
        const auto ids = tables::add(keeper, looked->reading, wishes, now);
        if (!ids) return fail(ids.error());
        json["ids"] = *ids;
        return json;
    };
}

}  // namespace

std::vector<Route> import_routes() { return {{"POST", "/api/import", "import", "import", import_table}}; }

}  // namespace mitefall::web
