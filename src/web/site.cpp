#include "web/site.h"

#include "web/assets.h"
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
      jobs_([this](const Question& question,
                   const auto& progress) { return work_off(question, *parts_.desk, jobs_, progress); },
            [this](const Job& job) { parts_.hub->tell("job", news_of(job)); }) {
    look_for_news();
}

Response Site::handle(const Request& request) {
    auto refused = turn_away(request, parts_.names(), *parts_.pairing);
    Response response = refused ? std::move(*refused) : route(request);
    const bool has_own_policy = find(response.headers, "Content-Security-Policy").has_value();
    for (auto& header : guard_headers()) {
        if (!has_own_policy || header.first != "Content-Security-Policy")
            response.headers.push_back(std::move(header));
    }
    if (request.path.starts_with("/api/")) response.headers.emplace_back("Cache-Control", "no-store");
    return response;
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
