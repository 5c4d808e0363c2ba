#include "web/jobs.h"

#include <gtest/gtest.h>

#include <condition_variable>
#include <future>
#include <stdexcept>

namespace mitefall::web {
namespace {

using formats::Json;

Question question(const std::string& kind, int number = 0) {
    return {kind, {{"n", number}}, 7, units::Day(std::chrono::year(2026) / 3 / 1)};
}

/// Waits until a job is in a state; the watcher wakes it.
class Watch {
  public:
    void saw(const Job& job) {
        const std::scoped_lock lock(guard_);
        seen_[job.id].push_back(job);
        changed_.notify_all();
    }
    Job until(const std::string& id, JobState state) {
        std::unique_lock lock(guard_);
        const auto there = [&] { return !seen_[id].empty() && seen_[id].back().state == state; };
        EXPECT_TRUE(changed_.wait_for(lock, std::chrono::seconds(60), there));
        return seen_[id].empty() ? Job{} : seen_[id].back();
    }

  private:
    std::mutex guard_;
    std::condition_variable changed_;
    std::map<std::string, std::vector<Job>> seen_;
};

TEST(Jobs, are_worked_off_and_kept) {
    Watch watch;
    Jobs jobs(
        [](const Question& q, const auto&) -> base::Result<Outcome> {
            return Outcome{q.options, 42};
        },
        [&](const Job& job) { watch.saw(job); });
    const auto asked = jobs.ask(question("plan", 3));
    ASSERT_TRUE(asked);
    watch.until(asked->id, JobState::done);
    const auto done = jobs.find(asked->id);
    ASSERT_TRUE(done && done->outcome);
    EXPECT_EQ(done->outcome->result, (Json{{"n", 3}}));
    EXPECT_EQ(std::any_cast<int>(done->outcome->kept), 42);
    EXPECT_EQ(done->progress, 1);
    EXPECT_EQ(jobs.ask(question("plan", 3))->id, asked->id) << "the same question about the same records";
    EXPECT_NE(jobs.ask(question("plan", 4))->id, asked->id);
    Question later = question("plan", 3);
    later.entry = 8;
    EXPECT_NE(jobs.ask(later)->id, asked->id) << "something was recorded meanwhile";
    EXPECT_FALSE(jobs.find("999"));
    EXPECT_FALSE(jobs.cancel("999"));
}

TEST(Jobs, one_that_fails_says_why_and_is_asked_anew) {
    Watch watch;
    Jobs jobs(
        [](const Question& q, const auto&) -> base::Result<Outcome> {
            if (q.kind == "bad") throw std::runtime_error("broken");
            return base::fail(base::invalid("no", "", ""));
        },
        [&](const Job& job) { watch.saw(job); });
    const auto refused = jobs.ask(question("plan"));
    EXPECT_EQ(watch.until(refused->id, JobState::failed).error->what, "no");
    EXPECT_NE(jobs.ask(question("plan"))->id, refused->id);
    const auto broken = jobs.ask(question("bad"));
    const Job failed = watch.until(broken->id, JobState::failed);
    EXPECT_EQ(failed.error->kind, base::ErrorKind::system);
    EXPECT_EQ(failed.error->message().find("broken"), std::string::npos) << "nobody is told what was thrown";
}

TEST(Jobs, what_is_known_already_is_told_while_they_run) {
    Watch watch;
    std::promise<void> told;
    std::promise<void> go_on;
    Jobs jobs(
        [&](const Question&, const Ongoing& at) -> base::Result<Outcome> {
            at.so_far({{"n", 1}});
            at.so_far({{"n", 2}});
            told.set_value();
            go_on.get_future().wait();
            return Outcome{{{"n", 3}}, {}};
        },
        [&](const Job& job) { watch.saw(job); });
    const auto asked = jobs.ask(question("plan"));
    told.get_future().wait();
    const auto running = jobs.find(asked->id);
    EXPECT_EQ(running->state, JobState::running);
    ASSERT_TRUE(running->so_far);
    EXPECT_EQ(*running->so_far, (Json{{"n", 2}}));
    EXPECT_FALSE(running->outcome) << "it is no answer yet";
    go_on.set_value();
    watch.until(asked->id, JobState::done);
    EXPECT_FALSE(jobs.find(asked->id)->so_far) << "the answer is there";
}

TEST(Jobs, can_be_cancelled_while_waiting_and_while_running) {
    Watch watch;
    std::promise<void> began;
    std::promise<void> go_on;
    std::atomic<int> worked = 0;
    Jobs jobs(
        [&](const Question& q, const Ongoing& at) -> base::Result<Outcome> {
            ++worked;
            if (q.kind != "long") return Outcome{};
            EXPECT_TRUE(at.progress(0.5));
            began.set_value();
            go_on.get_future().wait();
            EXPECT_FALSE(at.progress(0.6)) << "told to stop";
            return Outcome{};
        },
        [&](const Job& job) { watch.saw(job); });
    const auto running = jobs.ask(question("long"));
    const auto waiting = jobs.ask(question("short"));
    began.get_future().wait();
    EXPECT_EQ(jobs.find(running->id)->progress, 0.5);
    EXPECT_EQ(jobs.cancel(waiting->id)->state, JobState::cancelled);
    EXPECT_EQ(jobs.cancel(running->id)->state, JobState::cancelled);
    go_on.set_value();
    const auto after = jobs.ask(question("after"));
    watch.until(after->id, JobState::done);
    EXPECT_EQ(jobs.find(running->id)->state, JobState::cancelled) << "what came too late does not count";
    EXPECT_FALSE(jobs.find(running->id)->outcome);
    EXPECT_EQ(worked, 2) << "the waiting one never began";
    EXPECT_EQ(jobs.cancel(after->id)->state, JobState::done) << "what has ended stays as it is";
    EXPECT_EQ(jobs.latest("after")->id, after->id);
    EXPECT_FALSE(jobs.latest("long"));
}

TEST(Jobs, the_oldest_ended_are_forgotten_and_too_many_are_refused) {
    Watch watch;
    std::promise<void> go_on;
    const std::shared_future<void> gate = go_on.get_future().share();
    Jobs jobs(
        [&](const Question& q, const auto&) -> base::Result<Outcome> {
            if (q.kind == "held") gate.wait();
            return Outcome{};
        },
        [&](const Job& job) { watch.saw(job); });
    std::string first, last;
    for (int i = 0; i < 60; ++i) {
        last = jobs.ask(question("quick", i))->id;
        if (i == 0) first = last;
        watch.until(last, JobState::done);
    }
    EXPECT_FALSE(jobs.find(first));
    EXPECT_TRUE(jobs.find(last));
    int refused = 0;
    for (int i = 0; i < 30; ++i) refused += jobs.ask(question("held", i)) ? 0 : 1;
    EXPECT_GE(refused, 12);
    go_on.set_value();
}

TEST(Jobs, keep_no_question_that_is_too_long) {
    Watch watch;
    Jobs jobs([](const Question&, const auto&) -> base::Result<Outcome> { return Outcome{}; },
              [&](const Job& job) { watch.saw(job); });
    Question wordy = question("plan");
    wordy.options["only"] = std::string(100'000, 'x');
    const auto refused = jobs.ask(wordy);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, base::ErrorKind::invalid_input);
    EXPECT_EQ(refused.error().where, "options");
    EXPECT_LT(refused.error().message().size(), 200U);
}

TEST(Jobs, go_on_whatever_is_thrown) {
    Watch watch;
    std::atomic<int> told = 0;
    Jobs jobs(
        [](const Question& q, const auto&) -> base::Result<Outcome> {
            if (q.kind == "bad") throw 17;  // NOLINT: not even an exception
            return Outcome{};
        },
        [&](const Job& job) {
            watch.saw(job);
            if (++told % 2 == 0) throw std::runtime_error("nobody listens");
        });
    for (int i = 0; i < 5; ++i) {
        watch.until(jobs.ask(question("bad", i))->id, JobState::failed);
        watch.until(jobs.ask(question("good", i))->id, JobState::done);
    }
}

TEST(Jobs, end_with_the_program) {
    std::promise<void> began;
    std::atomic<bool> stopped = false;
    {
        Jobs jobs(
            [&](const Question&, const Ongoing& at) -> base::Result<Outcome> {
                began.set_value();
                while (at.progress(0)) std::this_thread::yield();
                stopped = true;
                return Outcome{};
            },
            [](const Job&) {});
        ASSERT_TRUE(jobs.ask(question("endless")));
        began.get_future().wait();
    }
    EXPECT_TRUE(stopped);
}

}  // namespace
}  // namespace mitefall::web
