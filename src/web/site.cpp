#include "web/site.h"

#include "web/assets.h"
#include "web/mishap.h"
#include "web/routes.h"
#include "web/work.h"

namespace mitefall::web {
namespace {

formats::Json news_of(const Job& job) {
    return {{"job", job.id},
            {"kind", job.question.kind},
            {"state", to_text(job.state)},
            {"progress", job.progress}};
}

Response no_such_page(const Request& request) {
    return refusal(404, {base::ErrorKind::not_found,
                         "there is nothing of that name",
                         request.path,
                         {},
                         "begin at the first page",
                         {}});
}

Response events() {
    Response response;
    response.type = "text/event-stream";
    response.headers = {{"Cache-Control", "no-store"}};
    response.is_events = true;
    return response;
}

}  // namespace

Site::Site(Parts parts)
    : parts_(std::move(parts)),
      jobs_([this](const Question& question, const auto& progress) { return work(question, progress); },
            [this](const Job& job) { parts_.hub->tell("job", news_of(job)); }) {
    look_for_news();
}

base::Result<Outcome> Site::work(const Question& question, const std::function<bool(double)>& progress) {
    try {
        return work_off(question, *parts_.desk, jobs_, progress);
    } catch (...) {
        return base::fail(what_went_wrong(*parts_.desk));
    }
}

Admission Site::admit(const Request& head) const { return web::admit(head, parts_.names(), *parts_.pairing); }

Response Site::handle(const Request& request) {
    auto refused = turn_away(request, parts_.names(), *parts_.pairing);
    return guarded(refused ? std::move(*refused) : attempt(request), request.path);
}

Response Site::attempt(const Request& request) {
    try {
        return route(request);
    } catch (...) {
        return failed("serve", what_went_wrong(*parts_.desk));
    }
}

Response Site::route(const Request& request) {
    if (!request.path.starts_with("/api/")) {
        if (request.method == "GET" || request.method == "HEAD") {
            if (auto asset = find_asset(request)) return std::move(*asset);
        }
        return no_such_page(request);
    }
    if (request.method == "GET" && request.path == "/api/events") return events();
    const Means means{request, parts_, jobs_};
    for (const auto attempt : {answer_reading, answer_mixing, answer_writing, answer_jobs, answer_sharing}) {
        auto response = attempt(means);
        if (!response) continue;
        if (request.method == "POST" && response->status == 200) look_for_news();
        return std::move(*response);
    }
    return no_such_page(request);
}

void Site::look_for_news() {
    const auto last = parts_.desk->last_entry();
    if (!last) return;
    {
        const std::scoped_lock lock(news_guard_);
        if (*last == told_) return;
        told_ = *last;
    }
    parts_.hub->tell("journal", {{"entry", *last}});
}

}  // namespace mitefall::web
