#include "web/site.h"

#include "web/assets.h"
#include "web/known.h"
#include "web/mishap.h"
#include "web/routes.h"
#include "web/work.h"
#include "web/writing.h"

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

Response no_such_way(const Request& request, const std::string& methods) {
    Response response = refusal(405, base::invalid("there is no such way to ask", request.method, methods));
    response.headers.emplace_back("Allow", methods);
    return response;
}

Response only_local() {
    return refusal(403, {base::ErrorKind::refused,
                         "sharing is switched on the machine Mitefall runs on",
                         {},
                         {},
                         "go to that machine",
                         {}});
}

Response answer_by(const Means& means) {
    if (const auto* const read = std::get_if<DeedReader>(&means.route.handle))
        return answer_once(means, *read);
    return std::get<Handler>(means.route.handle)(means);
}

}  // namespace

Site::Site(Parts parts)
    : parts_(std::move(parts)),
      jobs_([this](const Question& question, const Ongoing& ongoing) { return work(question, ongoing); },
            [this](const Job& job) { parts_.hub->tell("job", news_of(job)); }) {
    look_for_news();
}

base::Result<Outcome> Site::work(const Question& question, const Ongoing& ongoing) {
    try {
        return work_off(question, *parts_.desk, jobs_, ongoing);
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
    const Route* const route = find_route(request.method, request.path);
    if (route == nullptr) {
        const std::string methods = methods_of(request.path);
        return methods.empty() ? no_such_page(request) : no_such_way(request, methods);
    }
    if (route->who == Who::this_machine && request.door != Door::local) return only_local();
    Response response = answer_by({request, parts_, jobs_, *route, last_part(*route, request.path)});
    if (request.method == "POST" && response.status == 200) look_for_news();
    return unless_known(request, std::move(response));
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
