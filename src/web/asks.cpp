#include "web/asks.h"

#include "formats/json/statement.h"
#include "words/words.h"

namespace mitefall::web {
namespace {

using formats::Json;

Json enclosure_json(const std::optional<records::EnclosureId>& id) {
    return id ? Json(id->text()) : Json(nullptr);
}

Json band_json(const std::optional<base::Band>& band) {
    return band ? Json{{"mean", band->mean}, {"p10", band->p10}, {"p90", band->p90}} : Json(nullptr);
}

Json tell_json(const service::Tell& line) {
    return {{"rule", line.what.id},
            {"args", formats::arguments_json(line.what)},
            {"text", words::say_all({line.what})},
            {"tag", line.tag ? Json(evidence::to_text(*line.tag)) : Json(nullptr)},
            {"source", line.source.empty() ? Json(nullptr) : Json(line.source)}};
}

}  // namespace

std::optional<double> release_chance(const Jobs& jobs, const records::AnimalId& animal, records::FactId entry,
                                     units::Day today) {
    const auto job = jobs.latest("release");
    if (!job || job->question.entry != entry || job->question.today != today) return std::nullopt;
    const auto* const kept = std::any_cast<KeptRelease>(&job->outcome->kept);
    if (kept == nullptr || kept->animal != animal) return std::nullopt;
    return kept->chance;
}

Json asks_json(const std::vector<service::Ask>& asks) {
    Json list = Json::array();
    for (const service::Ask& ask : asks) {
        Json doubts = Json::array();
        for (const service::Doubt doubt : ask.doubts) doubts.push_back(service::to_text(doubt));
        Json tell = Json::array();
        for (const service::Tell& line : ask.tell) tell.push_back(tell_json(line));
        Json says = Json::array();
        for (const statement::Statement& one : ask.says) says.push_back(formats::told_json(one));
        list.push_back({{"kind", service::to_text(ask.kind)},
                        {"key", ask.key},
                        {"animal", ask.animal.text()},
                        {"from", enclosure_json(ask.from)},
                        {"to", enclosure_json(ask.to)},
                        {"from_danger", worklist::to_text(ask.from_danger)},
                        {"to_danger", worklist::to_text(ask.to_danger)},
                        {"doubts", std::move(doubts)},
                        {"needs_reason", ask.needs_reason},
                        {"says", std::move(says)},
                        {"text", words::say_all(ask.says)},
                        {"tell", std::move(tell)}});
    }
    return list;
}

Json consequence_json(const service::Consequence& consequence) {
    return {{"clear_before", band_json(consequence.clear_before)},
            {"clear_after", band_json(consequence.clear_after)},
            {"course_before", band_json(consequence.course_before)},
            {"course_after", band_json(consequence.course_after)}};
}

}  // namespace mitefall::web
