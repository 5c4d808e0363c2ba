#include "web/routes.h"
#include "web/wishes.h"
#include "web/work.h"

namespace mitefall::web {
namespace {

using formats::Json;

Json job_json(const Job& job) {
    return {{"job", job.id},
            {"kind", job.question.kind},
            {"state", to_text(job.state)},
            {"progress", job.progress},
            {"entry", job.question.entry},
            {"result", job.outcome ? job.outcome->result : Json(nullptr)},
            {"error", job.error ? formats::error_json(brief(*job.error)) : Json(nullptr)}};
}

Response ask(const Means& means) {
    const auto body = read_body(means.request);
    if (!body) return failed("job", body.error());
    Members members(*body);
    const std::string kind = members.text("kind");
    Json options = members.any("options");
    if (options.is_null()) options = Json::object();
    if (const auto ok = members.finish(); !ok) return failed("job", ok.error());
    if (!is_question(kind)) {
        return failed("job", base::invalid("there is no such question", kind, list_questions()));
    }
    const auto entry = means.parts.desk->last_entry();
    if (!entry) return failed("job", entry.error());
    const auto job = means.jobs.ask({kind, std::move(options), *entry, means.parts.desk->now().today});
    return job ? answer("job", job_json(*job)) : failed("job", job.error());
}

}  // namespace

std::optional<Response> answer_jobs(const Means& means) {
    constexpr std::string_view prefix = "/api/jobs/";
    if (means.is("POST", "/api/jobs")) return ask(means);
    if (!means.request.path.starts_with(prefix)) return std::nullopt;
    const std::string id = means.request.path.substr(prefix.size());
    std::optional<Job> job;
    if (means.request.method == "GET") job = means.jobs.find(id);
    if (means.request.method == "DELETE") job = means.jobs.cancel(id);
    if (job) return answer("job", job_json(*job));
    return failed(
        "job",
        {base::ErrorKind::not_found, "this question is no longer at hand", id, {}, "ask again", "job"});
}

}  // namespace mitefall::web
