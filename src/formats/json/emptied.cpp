#include "formats/json/emptied.h"

#include "formats/json/parts.h"
#include "formats/json/statement.h"

namespace mitefall::formats {
namespace {

Json way_json(const EmptiedWay& way) {
    Json json = told_json(way.how);
    json["clear"] = list(way.clear, band_json);
    json["from"] = date(way.from);
    json["careful"] = date(way.careful);
    return json;
}

}  // namespace

Json emptied_json(const EmptiedView& view) {
    Json json{{"enclosure", name(view.enclosure)}};
    json["supposed"] = view.supposed;
    json["target"] = number(view.target);
    json["days"] = dates(view.days);
    json["ways"] = list(view.ways, way_json);
    json["at_once"] = list(view.at_once, told_json);
    return json;
}

}  // namespace mitefall::formats
