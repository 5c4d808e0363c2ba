#include <algorithm>
#include <map>
#include <set>

#include "formats/json/adopted.h"
#include "formats/json/collection.h"
#include "formats/json/evidence.h"
#include "formats/json/exposure.h"
#include "formats/json/facts.h"
#include "formats/json/given.h"
#include "formats/json/json.h"
#include "formats/json/overview.h"
#include "formats/json/verdicts.h"
#include "formats/json/worklist.h"
#include "formats/paper/batch_page.h"
#include "questions/verdicts.h"
#include "service/adopted.h"
#include "service/exposure.h"
#include "service/given.h"
#include "service/verdicts.h"
#include "service/worklist.h"
#include "web/routes.h"
#include "web/wishes.h"
#include "web/work.h"

// Answers that only read the records.
namespace mitefall::web {
namespace {

template <class T, class F>
Response answer_with(std::string_view command, const Result<T>& value, F to_json) {
    return value ? answer(command, to_json(*value)) : failed(command, value.error());
}

Json band(const base::Band& b) { return {{"mean", b.mean}, {"p10", b.p10}, {"p90", b.p90}}; }

/// What the latest finished job of the kind keeps, if nothing was recorded since.
template <class Kept>
std::optional<Kept> kept_of(const Means& means, std::string_view kind, records::FactId entry,
                            units::Day today) {
    const auto job = means.jobs.latest(kind);
    if (!job || job->question.entry != entry || job->question.today != today) return std::nullopt;
    const auto* const kept = std::any_cast<Kept>(&job->outcome->kept);
    return kept == nullptr ? std::nullopt : std::optional(*kept);
}

void add_clearance(const clearance::CollectionAnswer& known, Json& situation) {
    std::map<std::string, Json> clear_of;
    for (const auto& place : known.places) {
        for (const auto& enclosure : place.enclosures) clear_of[enclosure.text()] = band(place.sure.clear);
    }
    situation["clear"] = band(known.outlook.points.front().checked.clear);
    for (Json& room : situation["rooms"]) {
        for (Json& enclosure : room["enclosures"]) {
            const auto clear = clear_of.find(enclosure["enclosure"].get<std::string>());
            if (clear != clear_of.end()) enclosure["clear"] = clear->second;
        }
    }
}

Response situation(const Means& means) {
    const auto today = means.parts.desk->situation();
    if (!today) return failed("situation", today.error());
    const auto overview = service::overview_of(**today);
    if (!overview) return failed("situation", overview.error());
    Json json = formats::overview_json(*overview, service::next_work_of(**today, *overview));
    const records::FactId entry = (*today)->entry();
    if (const auto kept = kept_of<KeptClearance>(means, "clear", entry, (*today)->today()))
        add_clearance(*kept->answer, json);
    if (const auto kept = kept_of<KeptScore>(means, "rescore", entry, (*today)->today()))
        json["outlook"] = band(kept->clear);
    return answer("situation", std::move(json));
}

Result<std::vector<safety::Verdict>> verdicts_of(const Means& means, const questions::VerdictOptions& asked,
                                                 units::Strength& strength) {
    return means.parts.desk->answer([&](const service::Situation& today) {
        strength = asked.strength.value_or(today.strength_in_use());
        return service::verdicts_of(today, strength);
    });
}

Response rulings(const Means& means) {
    const auto asked = read(questions::verdicts(), means.request.query);
    if (!asked) return failed("rulings", asked.error());
    units::Strength strength;
    return answer_with("rulings", verdicts_of(means, *asked, strength),
                       [&](const auto& verdicts) { return formats::rulings_json(verdicts, strength); });
}

Response verdicts(const Means& means) {
    const auto asked = read(questions::verdicts(), means.request.query);
    if (!asked) return failed("verdicts", asked.error());
    units::Strength strength;
    auto found = verdicts_of(means, *asked, strength);
    const records::AnimalId animal(asked->animal);
    if (found) std::erase_if(*found, [&](const safety::Verdict& v) { return v.animal != animal; });
    if (found && found->empty()) {
        return failed("verdicts", {base::ErrorKind::not_found,
                                   "there is no animal of that name",
                                   animal.text(),
                                   {},
                                   "choose one of the collection",
                                   "animal"});
    }
    return answer_with("verdicts", found, formats::verdicts_json);
}

/// Whether any value in the fact names it.
bool mentions(const Json& fact, const std::string& name) {
    for (const auto& [key, value] : fact.items()) {
        if (value.is_string() && value.get<std::string>() == name && key != "name" && key != "taxon")
            return true;
        if (value.is_array() && std::find(value.begin(), value.end(), name) != value.end()) return true;
    }
    return false;
}

Json history_of(const std::vector<records::Entry>& journal, const std::string& animal,
                const std::string& enclosure) {
    Json all = formats::journal_json(journal);
    Json kept = Json::array();
    std::set<records::FactId> meant;
    for (std::size_t i = 0; i < journal.size(); ++i) {
        Json& row = all["entries"][i];
        const bool concerns = (!animal.empty() && mentions(row["fact"], animal)) ||
                              (!enclosure.empty() && mentions(row["fact"], enclosure)) ||
                              (journal[i].corrects && meant.contains(*journal[i].corrects));
        if (!concerns) continue;
        meant.insert(journal[i].id);
        kept.push_back(std::move(row));
    }
    all["entries"] = std::move(kept);
    return all;
}

Json kind_json(const evidence::Taxon& kind, const std::string& name) {
    return {{"name", name},
            {"scientific", kind.scientific},
            {"group", evidence::describe(kind.group)},
            {"unidentified", kind.unidentified}};
}

Response taxa(const Means& means) {
    const evidence::Taxa& known = means.parts.desk->knowledge().taxa;
    const std::string like = find(means.request.query, "like").value_or("");
    Json list = Json::array();
    for (const evidence::Taxa::Found& found : known.search(like, 12))
        list.push_back(kind_json(*found.taxon, found.written));
    const evidence::Taxa::Meaning meaning = known.meaning(like);
    Json kinds = Json::array();
    for (const evidence::Taxon* const kind : meaning.kinds)
        kinds.push_back(kind_json(*kind, known.plain_name(*kind)));
    return answer("taxa",
                  {{"taxa", std::move(list)},
                   {"meaning", {{"how", evidence::to_text(meaning.how)}, {"kinds", std::move(kinds)}}}});
}

Response label(const Means& means) {
    const Fields& query = means.request.query;
    const service::Now now = means.parts.desk->now();
    const auto collection =
        means.parts.desk->ask([&](const Keeper& keeper) { return keeper.collection(now.today); });
    if (!collection) return failed("label", collection.error());
    const std::string id = find(query, "batch").value_or("");
    const auto batch = collection->batches.find(records::BatchId(id));
    if (batch == collection->batches.end()) {
        return failed("label", {base::ErrorKind::not_found,
                                "there is no batch of that name",
                                id,
                                {},
                                "choose one of the list",
                                "batch"});
    }
    const service::Knowledge& knowledge = means.parts.desk->knowledge();
    const auto comparison = mixing::compare_strength(batch->second.made.value.strength, knowledge.tables);
    const auto cautions = service::spray_cautions(knowledge);
    const auto paper = find(query, "paper") == "letter" ? formats::PaperSize::letter : formats::PaperSize::a4;
    const auto html = formats::batch_page(
        {batch->second, comparison, cautions, paper, 1, read_display(find(query, "units").value_or(""))});
    if (!html) return failed("label", html.error());
    Response response;
    response.type = "text/html; charset=utf-8";
    response.body = *html;
    response.headers = {{"Content-Security-Policy",
                         "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; "
                         "form-action 'none'; frame-ancestors 'self'"}};
    return response;
}

Response evidence(const Means& means) {
    return answer("evidence", formats::evidence_json(means.parts.desk->knowledge().tables));
}

/// What the keeper says today, by `ask`.
template <class F, class J>
Response from_keeper(const Means& means, F ask, J to_json) {
    const service::Now now = means.parts.desk->now();
    return answer_with(means.route.command,
                       means.parts.desk->ask([&](const Keeper& keeper) { return ask(keeper, now); }),
                       to_json);
}

/// What today's situation answers.
template <class F, class J>
Response of_today(const Means& means, F question, J to_json) {
    return answer_with(means.route.command, means.parts.desk->answer(question), to_json);
}

Response collection(const Means& means) {
    const auto told = [](const service::Situation& today) -> Result<Json> {
        return formats::collection_json(today.collection(), today.knowledge().tables);
    };
    return of_today(means, told, [](const Json& json) { return json; });
}

Response batches(const Means& means) {
    return from_keeper(
        means, [](const Keeper& k, const service::Now& now) { return k.collection(now.today); },
        formats::batches_json);
}

Response journal(const Means& means) {
    return from_keeper(
        means, [](const Keeper& k, const service::Now&) { return k.journal(); }, formats::journal_json);
}

Response history(const Means& means) {
    const std::string animal = find(means.request.query, "animal").value_or("");
    const std::string enclosure = find(means.request.query, "enclosure").value_or("");
    return from_keeper(
        means, [](const Keeper& k, const service::Now&) { return k.journal(); },
        [&](const auto& entries) { return history_of(entries, animal, enclosure); });
}

Response given(const Means& means) {
    const records::AnimalId animal(find(means.request.query, "animal").value_or(""));
    return of_today(
        means,
        [&](const service::Situation& today) -> Result<Json> {
            const auto found = service::given_of(today, animal);
            if (!found) return base::fail(found.error());
            return formats::given_json(*found, today.collection());
        },
        [](const Json& json) { return json; });
}

Response course(const Means& means) {
    return of_today(means, service::adopted_course, [&](const auto& adopted) {
        return formats::adopted_json(adopted, means.parts.desk->knowledge().tables);
    });
}

Response exposure(const Means& means) {
    return of_today(means, service::exposure_of, formats::exposure_json);
}

Response worklist_of_today(const Means& means) {
    return of_today(means, service::worklist_of, formats::worklist_json);
}

}  // namespace

std::vector<Route> reading_routes() {
    return {{"GET", "/api/situation", "situation", "web-situation", situation},
            {"GET", "/api/collection", "show", "collection", collection},
            {"GET", "/api/journal", "journal", "journal", journal},
            {"GET", "/api/history", "journal", "journal", history},
            {"GET", "/api/given", "given", "given", given},
            {"GET", "/api/course", "course", "adopted-course", course},
            {"GET", "/api/exposure", "exposure", "exposure", exposure},
            {"GET", "/api/rulings", "rulings", "web-rulings", rulings},
            {"GET", "/api/verdicts", "verdicts", "verdicts", verdicts},
            {"GET", "/api/worklist", "today", "worklist", worklist_of_today},
            {"GET", "/api/batches", "batch list", "batches", batches},
            {"GET", "/api/label", "label", "text/html", label},
            {"GET", "/api/evidence", "evidence", "evidence", evidence},
            {"GET", "/api/taxa", "taxa", "web-taxa", taxa}};
}

}  // namespace mitefall::web
