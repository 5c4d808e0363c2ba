#include "web/routes.h"
#include "web/wishes.h"
#include "web/work.h"

namespace mitefall::web {
namespace {

Json job_json(const Job& job) {
    return {{"job", job.id},
            {"kind", job.question.kind},
            {"state", to_text(job.state)},
            {"progress", job.progress},
            {"entry", job.question.entry},
            {"so_far", job.so_far ? *job.so_far : Json(nullptr)},
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

Response told(const Means& means, const std::optional<Job>& job) {
    if (job) return answer("job", job_json(*job));
    return failed("job", {base::ErrorKind::not_found,
                          "this question is no longer at hand",
                          means.last,
                          {},
                          "ask again",
                          "job"});
}

Response look(const Means& means) { return told(means, means.jobs.find(means.last)); }
Response cancel(const Means& means) { return told(means, means.jobs.cancel(means.last)); }

}  // namespace

std::vector<Route> job_routes() {
    return {{"POST", "/api/jobs", "job", "web-job", ask, "ask"},
            {"GET", "/api/jobs/{job}", "job", "web-job", look},
            {"DELETE", "/api/jobs/{job}", "job", "web-job", cancel}};
}

}  // namespace mitefall::web
