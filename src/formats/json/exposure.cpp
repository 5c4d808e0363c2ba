#include "formats/json/exposure.h"

#include "formats/json/parts.h"
#include "formats/json/statement.h"

namespace mitefall::formats {
namespace {

Json step_json(const exposure::Step& step) {
    Json json = told_json(step.what);
    json["kind"] = exposure::to_text(step.kind);
    json["from"] = name(step.from);
    json["to"] = name(step.to);
    json["from_room"] = name(step.from_room);
    json["to_room"] = name(step.to_room);
    json["animal"] = name(step.animal);
    json["day"] = date(step.day);
    json["chance"] = number(step.chance);
    return json;
}

Json exposed_json(const exposure::Exposed& exposed) {
    Json json = told_json(exposed.what);
    json["enclosure"] = name(exposed.enclosure);
    json["sighted"] = exposed.sighted;
    json["chance"] = number(exposed.chance);
    json["path"] = list(exposed.path, step_json);
    return json;
}

Json arrival_json(const exposure::Arrival& arrival) {
    Json json = told_json(arrival.what);
    json["animal"] = name(arrival.animal);
    json["enclosure"] = name(arrival.enclosure);
    json["day"] = date(arrival.day);
    json["chance"] = number(arrival.chance);
    return json;
}

}  // namespace

Json exposure_json(const exposure::Tracing& tracing) {
    return {{"from", date(tracing.from)},
            {"to", date(tracing.to)},
            {"exposed", list(tracing.exposed, exposed_json)},
            {"sources", list(tracing.sources, exposed_json)},
            {"arrivals", list(tracing.arrivals, arrival_json)}};
}

}  // namespace mitefall::formats
