#pragma once

#include <any>
#include <condition_variable>
#include <deque>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "base/result.h"
#include "base/vocabulary.h"
#include "formats/json/json.h"
#include "records/names.h"
#include "units/day.h"

// Long computations: asked for once, worked off one after another (each uses every core by itself), watched
// and cancelled from any screen.
namespace mitefall::web {

/// What a job is about. The same question about the same records on the same day is the same job.
struct Question {
    std::string kind;
    formats::Json options;
    records::FactId entry = 0;  ///< last entry of the journal it is about
    units::Day today;
};

/// What came out: the answer as it is sent, and what later requests may build on.
struct Outcome {
    formats::Json result;
    std::any kept;
};

enum class JobState { waiting, running, done, failed, cancelled };
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(JobState) {
    using enum JobState;
    return base::vocabulary("state of a job", waiting, "waiting", running, "running", done, "done", failed,
                            "failed", cancelled, "cancelled");
}

/// What a computation under way tells.
struct Ongoing {
    std::function<bool(double)> progress;            ///< takes the share done; false cancels
    std::function<void(formats::Json)> so_far = {};  ///< takes what is known already
};

struct Job {
    std::string id;
    Question question;
    JobState state = JobState::waiting;
    double progress = 0;
    std::optional<base::Error> error;
    std::shared_ptr<const Outcome> outcome = nullptr;  ///< once done
    std::shared_ptr<const formats::Json> so_far =
        nullptr;  ///< while it runs, where something is known already
};

class Jobs {
  public:
    /// Does the work on the thread of the jobs. What it throws fails the job.
    using Work = std::function<base::Result<Outcome>(const Question&, const Ongoing&)>;
    /// Hears of every change; called without a lock held, on any thread.
    using Watcher = std::function<void(const Job&)>;

    Jobs(Work work, Watcher watcher);
    /// Cancels what runs and waits for it to stop.
    ~Jobs();
    Jobs(const Jobs&) = delete;
    Jobs& operator=(const Jobs&) = delete;

    /// The job that answers the question: one asked before, unless that failed or was cancelled, else a new
    /// one. Error conflict while too many wait; invalid_input where its options are too long.
    [[nodiscard]] base::Result<Job> ask(Question question);
    /// nullopt: never heard of, or forgotten. Jobs that ended are forgotten, oldest first, above a number.
    [[nodiscard]] std::optional<Job> find(const std::string& id) const;
    /// The same; a job that has ended stays as it is.
    std::optional<Job> cancel(const std::string& id);
    /// The latest job of the kind that is done.
    [[nodiscard]] std::optional<Job> latest(std::string_view kind) const;

  private:
    void run();
    [[nodiscard]] base::Result<Outcome> attempt(const Question& question, const Ongoing& ongoing);
    static const Job& ended(Job& job, base::Result<Outcome> outcome);
    void tell(const Job& job) const;
    void forget_old();
    void set_progress(const std::string& id, double progress);
    void set_so_far(const std::string& id, formats::Json so_far);

    Work work_;
    Watcher watcher_;
    mutable std::mutex guard_;
    std::condition_variable wake_;
    std::map<std::string, Job> jobs_;
    std::deque<std::string> order_;    ///< of asking
    std::deque<std::string> waiting_;  ///< of working
    std::string running_;              ///< the job at work, ended or not; empty without one
    std::size_t next_ = 1;
    bool ending_ = false;
    std::thread worker_;  ///< last: starts when all else is there
};

}  // namespace mitefall::web
