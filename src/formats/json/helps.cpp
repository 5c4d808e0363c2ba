#include "formats/json/helps.h"

#include "formats/json/parts.h"
#include "formats/json/statement.h"

namespace mitefall::formats {
namespace {

Json help_json(const HelpView& help) {
    Json json = told_json(help.what);
    json["whose"] = help.whose;
    json["course"] = told_json(help.course);
    json["clear"] = band_json(help.clear);
    json["meets_target"] = help.meets_target;
    json["gain"] = number(help.gain);
    json["sources"] = help.sources;
    return json;
}

}  // namespace

Json helps_json(const HelpsView& view) {
    Json json{{"clear", band_json(view.clear)}};
    json["meets_target"] = view.meets_target;
    json["target"] = number(view.target);
    json["changes"] = list(view.changes, help_json);
    json["all_own"] = view.all_own ? help_json(*view.all_own) : Json(nullptr);
    return json;
}

}  // namespace mitefall::formats
