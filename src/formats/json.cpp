#include "formats/json.h"

#include "formats/json_parts.h"

namespace mitefall::formats {

Json envelope(std::string_view command, Json result) {
    return {{"mitefall", 1}, {"command", command}, {"result", std::move(result)}};
}

Json error_envelope(std::string_view command, const base::Error& error) {
    return {{"mitefall", 1}, {"command", command}, {"error", error_json(error)}};
}

Json error_json(const base::Error& error) {
    return {{"kind", base::to_text(error.kind)},
            {"what", error.what},
            {"value", error.value},
            {"limit", error.limit},
            {"remedy", error.remedy},
            {"where", error.where},
            {"message", error.message()}};
}

std::string write_json(const Json& json) {
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Json band_json(const forecast::Band& band) {
    return {{"mean", number(band.mean)}, {"p10", number(band.p10)}, {"p90", number(band.p90)}};
}

Json caution_json(const safety::Caution& caution) {
    return {{"text", caution.text},
            {"tag", evidence::to_text(caution.tag)},
            {"source", text_or_null(caution.source)}};
}

void put_climate(Json& into, const records::Climate& climate) {
    into["day_c"] = number(units::in_celsius(climate.day));
    into["night_c"] = number(units::in_celsius(climate.night));
    into["humidity_percent"] = number(units::in_percent(climate.humidity));
}

}  // namespace mitefall::formats
