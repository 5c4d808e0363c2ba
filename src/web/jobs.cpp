#include "web/jobs.h"

#include <algorithm>

namespace mitefall::web {
namespace {

constexpr std::size_t most_waiting = 16;
constexpr std::size_t most_kept = 32;
constexpr std::size_t most_options = 64UL << 10U;  ///< bytes, written as JSON: some hundred facts
constexpr double step_worth_telling = 0.01;

bool has_ended(const Job& job) { return job.state != JobState::waiting && job.state != JobState::running; }

bool same(const Question& a, const Question& b) {
    return a.kind == b.kind && a.entry == b.entry && a.today == b.today && a.options == b.options;
}

base::Error too_long(std::size_t bytes) {
    base::Error error = base::invalid("too much is asked at once", std::to_string(bytes) + " bytes",
                                      std::to_string(most_options) + " bytes", "ask in parts");
    error.where = "options";
    return error;
}

base::Error too_many_waiting() {
    return {base::ErrorKind::conflict,
            "too many questions are waiting for an answer",
            {},
            std::to_string(most_waiting),
            "wait for one, or cancel it",
            {}};
}

}  // namespace

Jobs::Jobs(Work work, Watcher watcher)
    : work_(std::move(work)), watcher_(std::move(watcher)), worker_([this] { run(); }) {}

Jobs::~Jobs() {
    {
        const std::scoped_lock lock(guard_);
        ending_ = true;
    }
    wake_.notify_all();
    worker_.join();
}

/// Told of before it may begin, so that nobody hears of its end first.
base::Result<Job> Jobs::ask(Question question) {
    const std::size_t bytes =
        question.options.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace).size();
    if (bytes > most_options) return base::fail(too_long(bytes));
    std::optional<Job> asked;
    {
        const std::scoped_lock lock(guard_);
        std::size_t waiting = 0;
        for (const auto& [id, job] : jobs_) {
            const bool answers = job.state != JobState::failed && job.state != JobState::cancelled;
            if (answers && same(job.question, question)) return job;
            waiting += job.state == JobState::waiting ? 1 : 0;
        }
        if (waiting >= most_waiting) return base::fail(too_many_waiting());
        asked = Job{std::to_string(next_++), std::move(question), JobState::waiting, 0, {}};
        jobs_.emplace(asked->id, *asked);
        order_.push_back(asked->id);
        forget_old();
    }
    tell(*asked);
    {
        const std::scoped_lock lock(guard_);
        waiting_.push_back(asked->id);
    }
    wake_.notify_all();
    return *asked;
}

void Jobs::forget_old() {
    for (auto id = order_.begin(); id != order_.end() && jobs_.size() > most_kept;) {
        if (*id == running_ || !has_ended(jobs_.at(*id))) {
            ++id;
            continue;
        }
        jobs_.erase(*id);
        id = order_.erase(id);
    }
}

std::optional<Job> Jobs::find(const std::string& id) const {
    const std::scoped_lock lock(guard_);
    const auto job = jobs_.find(id);
    return job == jobs_.end() ? std::nullopt : std::optional(job->second);
}

std::optional<Job> Jobs::latest(std::string_view kind) const {
    const std::scoped_lock lock(guard_);
    for (auto id = order_.rbegin(); id != order_.rend(); ++id) {
        const Job& job = jobs_.at(*id);
        if (job.state == JobState::done && job.question.kind == kind) return job;
    }
    return std::nullopt;
}

std::optional<Job> Jobs::cancel(const std::string& id) {
    std::optional<Job> found;
    {
        const std::scoped_lock lock(guard_);
        const auto job = jobs_.find(id);
        if (job == jobs_.end()) return std::nullopt;
        if (!has_ended(job->second)) job->second.state = JobState::cancelled;
        job->second.so_far = nullptr;
        std::erase(waiting_, id);
        found = job->second;
    }
    tell(*found);
    return found;
}

void Jobs::set_progress(const std::string& id, double progress) {
    std::optional<Job> told;
    {
        const std::scoped_lock lock(guard_);
        Job& job = jobs_.at(id);
        const bool worth_telling = progress >= job.progress + step_worth_telling;
        if (job.state != JobState::running || !worth_telling) return;
        job.progress = progress;
        told = job;
    }
    tell(*told);
}

void Jobs::set_so_far(const std::string& id, formats::Json so_far) {
    std::optional<Job> told;
    {
        const std::scoped_lock lock(guard_);
        Job& job = jobs_.at(id);
        if (job.state != JobState::running) return;
        job.so_far = std::make_shared<const formats::Json>(std::move(so_far));
        told = job;
    }
    tell(*told);
}

base::Result<Outcome> Jobs::attempt(const Question& question, const Ongoing& ongoing) {
    try {
        return work_(question, ongoing);
    } catch (...) {
        return base::fail({base::ErrorKind::system,
                           "this is a defect of the program, nothing was changed",
                           question.kind,
                           {},
                           "report it with what you asked",
                           {}});
    }
}

/// Whoever hears of it may have trouble of their own; the jobs go on.
void Jobs::tell(const Job& job) const {
    try {
        watcher_(job);
    } catch (...) {
        return;
    }
}

/// The job with its outcome, unless it was cancelled meanwhile.
const Job& Jobs::ended(Job& job, base::Result<Outcome> outcome) {
    job.so_far = nullptr;
    if (job.state != JobState::running) return job;
    job.state = outcome ? JobState::done : JobState::failed;
    if (outcome) {
        job.progress = 1;
        job.outcome = std::make_shared<const Outcome>(std::move(*outcome));
    } else {
        job.error = outcome.error();
    }
    return job;
}

void Jobs::run() {
    for (;;) {
        Job job;
        {
            std::unique_lock lock(guard_);
            wake_.wait(lock, [&] { return ending_ || !waiting_.empty(); });
            if (ending_) return;
            const auto found = jobs_.find(waiting_.front());
            waiting_.pop_front();
            if (found == jobs_.end() || found->second.state != JobState::waiting) continue;  // cancelled
            Job& next = found->second;
            next.state = JobState::running;
            running_ = next.id;
            job = next;
        }
        tell(job);
        const auto goes_on = [&](double progress) {
            set_progress(job.id, progress);
            const std::scoped_lock lock(guard_);
            return !ending_ && jobs_.at(job.id).state == JobState::running;
        };
        const auto knows = [&](formats::Json so_far) { set_so_far(job.id, std::move(so_far)); };
        auto outcome = attempt(job.question, {goes_on, knows});
        {
            const std::scoped_lock lock(guard_);
            job = ended(jobs_.at(job.id), std::move(outcome));
            running_.clear();
        }
        tell(job);
    }
}

}  // namespace mitefall::web
