#include "formats/json/exposure.h"

#include "formats/json/parts.h"

namespace mitefall::formats {
namespace {

Json step_json(const exposure::Step& step) {
    return {{"kind", exposure::to_text(step.kind)},
            {"from", name(step.from)},
            {"to", name(step.to)},
            {"from_room", name(step.from_room)},
            {"to_room", name(step.to_room)},
            {"animal", name(step.animal)},
            {"day", date(step.day)},
            {"chance", number(step.chance)},
            {"text", step.text}};
}

Json exposed_json(const exposure::Exposed& exposed) {
    return {{"enclosure", name(exposed.enclosure)},
            {"sighted", exposed.sighted},
            {"chance", number(exposed.chance)},
            {"text", exposed.text},
            {"path", list(exposed.path, step_json)}};
}

Json arrival_json(const exposure::Arrival& arrival) {
    return {{"animal", name(arrival.animal)},
            {"enclosure", name(arrival.enclosure)},
            {"day", date(arrival.day)},
            {"chance", number(arrival.chance)},
            {"text", arrival.text}};
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
