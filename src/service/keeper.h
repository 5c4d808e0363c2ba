#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "plan/search.h"
#include "records/set_aside.h"
#include "service/demo.h"
#include "service/situation.h"
#include "service/tap.h"
#include "store/collection_file.h"
#include "worklist/mix_sheet.h"
#include "worklist/worklist.h"

// What writes: every entry goes on record here, checked with nobody else writing in between.
namespace mitefall::service {

/// The moment as the face sees it. Nothing below asks a clock.
struct Now {
    units::Day today;
    std::string instant;  ///< UTC, ISO 8601, for the journal
};

/// The least number of draws, not below `draws`, that fills whole blocks of lanes.
[[nodiscard]] constexpr std::size_t whole_blocks(std::size_t draws) {
    return (draws + branching::lane_count - 1) / branching::lane_count * branching::lane_count;
}

/// Draws of every answer that is shown, unless asked for otherwise: the same question has the same number on
/// every screen and in every command only with the same draws.
inline constexpr std::size_t usual_draws = 256;

struct PlanOptions {
    double target = 0.99;
    double horizon_days = 84;
    std::size_t draws = usual_draws;
    std::uint64_t seed = 1;
    std::optional<units::Strength> strength;  ///< default: the strongest published
    std::function<bool(double)> progress;
    plan::Limits limits = {};
    plan::Prefer prefer = plan::Prefer::burden;
    bool prevent = false;                                               ///< no mite was seen
    std::function<void(const plan::FrontierCourse&)> best_so_far = {};  ///< plan/goal.h
};

struct ClearanceOptions {
    std::size_t draws = usual_draws;
    std::uint64_t seed = 1;
    int rounds = 8;         ///< of checks to come
    int interval_days = 7;  ///< between them
    records::CheckMethod method = records::CheckMethod::look_over;
    std::function<bool(double)> progress;
};

namespace detail {
template <class T>
struct Answer {
    using Type = base::Result<T>;
};
template <class T>
struct Answer<base::Result<T>> {
    using Type = base::Result<T>;
};
}  // namespace detail
/// What comes of a question where the journal may not be readable.
template <class T>
using AnswerOf = typename detail::Answer<T>::Type;

/// One open collection file.
class Keeper {
  public:
    [[nodiscard]] static base::Result<Keeper> create(const std::string& path, const Knowledge& knowledge);
    [[nodiscard]] static base::Result<Keeper> open(const std::string& path, const Knowledge& knowledge);

    [[nodiscard]] base::Result<std::vector<records::Entry>> journal() const;
    /// Entries that do not count, because they are damaged or contradict those before them, and why (decision
    /// 37). They can be put right by `correct` or taken out by `withdraw`.
    [[nodiscard]] base::Result<std::vector<records::SetAside>> damage() const;
    /// Number of the last entry, whoever wrote it; 0 in an empty journal.
    [[nodiscard]] base::Result<records::FactId> last_entry() const;
    /// Everything on record as it stands on that day: the same one until the journal grows or another day is
    /// asked for, whoever asks.
    [[nodiscard]] base::Result<std::shared_ptr<const Situation>> situation(units::Day day) const;
    /// The same from the journal up to `last`, whatever was added since.
    [[nodiscard]] base::Result<std::shared_ptr<const Situation>> situation(records::FactId last,
                                                                           units::Day day) const;
    [[nodiscard]] base::Result<records::Collection> collection(units::Day day) const;

    /// What `question` answers of today's situation and what else it needs to know.
    template <class Question, class... Needs>
    [[nodiscard]] auto ask(const Now& now, Question question, const Needs&... needs) const
        -> AnswerOf<decltype(question(std::declval<const Situation&>(), needs...))> {
        const auto today = situation(now.today);
        if (!today) return base::fail(today.error());
        return question(**today, needs...);
    }

    /// Asks and records with nobody else writing in between, whichever program: all that `work` puts on
    /// record is kept, or nothing where it fails. Gives what `work` gives. May be nested.
    template <class Work>
    std::invoke_result_t<Work> alone(Work work);

    /// The answer of `work`, kept with the key of the request, in the same piece as what it records. The same
    /// request sent again, also by another program or after a restart, is answered as the first time and
    /// records nothing. One that failed is not kept. Error conflict for the key of a request that asked
    /// something else.
    base::Result<std::string> once(const Asked& asked,
                                   const std::function<base::Result<std::string>()>& work);
    /// What the request was answered the first time; nullopt: it is new. Error conflict as above.
    [[nodiscard]] base::Result<std::optional<std::string>> answered_before(const Asked& asked) const;

    /// Checks all facts against the journal, then appends all or none.
    base::Result<std::vector<records::FactId>> record(const std::vector<records::Fact>& facts, units::Day day,
                                                      const Now& now);
    /// The same for facts of several days, in this order: an import, or the demo.
    base::Result<std::vector<records::FactId>> record_all(const std::vector<DatedFact>& facts,
                                                          const Now& now);
    /// Whether `record_all` would take them. Writes nothing.
    [[nodiscard]] base::Result<void> would_accept(const std::vector<DatedFact>& facts, const Now& now) const;
    /// Replaces (or with Withdrawn removes) an earlier entry, also one that is set aside.
    base::Result<records::FactId> correct(records::FactId entry, const records::Fact& fact, units::Day day,
                                          const Now& now);
    /// Withdraws what was recorded last: all entries in force of the same instant and request (ticking a task
    /// writes several). `seen`: number of the last entry whoever asks had seen; error conflict where
    /// something was recorded since.
    base::Result<std::vector<records::Entry>> undo(const Now& now, std::optional<records::FactId> seen = {});
    /// Takes entries out of force, all or none. They stay readable. An empty reason: the journal tells what
    /// was undone (words/undo.h).
    base::Result<std::vector<records::Entry>> withdraw(const std::vector<records::FactId>& entries,
                                                       const std::string& reason, const Now& now);
    /// The same for all a request wrote that is in force, where its answer never came. A request that never
    /// came either will not count if it still comes.
    base::Result<std::vector<records::Entry>> withdraw_request(const std::string& request,
                                                               const std::string& reason, const Now& now);

    /// A consistent copy of the file in a new one. Error already_exists if `path` is taken.
    base::Result<void> copy_to(const std::string& path) const;
    /// The bytes of a consistent copy; nothing is put anywhere.
    [[nodiscard]] base::Result<std::string> copy() const;

    /// Puts a bottle of spray on record. A strength above all published ones must have been acknowledged or
    /// directed for some animal (or acknowledged for places without one), and the sheet must say how it is
    /// measured: refused otherwise.
    base::Result<records::FactId> record_batch(const records::BatchId& batch, const worklist::Bench& bench,
                                               const worklist::MixSheet& sheet, const std::string& steps,
                                               const Now& now);

    /// `seen`: last entry whoever adopts had seen; error conflict where another plan was adopted since.
    base::Result<records::FactId> adopt(const plan::ScoredPlan& plan, units::Strength strength,
                                        const Now& now, std::optional<records::FactId> seen = {});

    /// Puts the rounds of the adopted course that are to come on these days: through the safety check, and in
    /// full on record. `seen` as above. Error not_found without a course; invalid_input for days that are no
    /// such course.
    base::Result<records::FactId> put_to_days(const std::vector<units::Day>& days, const Now& now,
                                              std::optional<records::FactId> seen = {});

    /// Puts the course to other days, so that its late round is done today (worklist/late.h): through the
    /// safety check, and in full on record. Error not_found where no round is late or none comes after it to
    /// move; conflict where what is late is no longer what the reader of the list made from `seen` saw.
    base::Result<records::FactId> catch_up(worklist::CatchUp how, const Now& now,
                                           std::optional<records::FactId> seen = {});

    /// Ticks a task of the day's list: writes what was done and that it is done, all or nothing. One that is
    /// done already stays as it is, and the answer says so. Error conflict for a task that was skipped, or
    /// that is no longer what the reader of the list saw, or for a check that was answered otherwise. A check
    /// is answered: error invalid_input for one without an answer, and for an answer to anything else.
    base::Result<Ticked> tick(const Tap& tap, const Now& now);
    /// The same for a task passed over; error conflict for one that is done.
    base::Result<Ticked> skip(const Tap& tap, const std::string& reason, const Now& now);
    /// Takes a tick or a skip back, with all it wrote, so that the task is open again. One that was taken
    /// back before is answered so, whatever became of the task since. Error not_found where it never was.
    base::Result<Ticked> reopen(const TakeBack& asked, const Now& now);

  private:
    Keeper(store::CollectionFile file, const Knowledge& knowledge)
        : file_(std::move(file)), knowledge_(&knowledge) {}

    /// What is in force in place of something else goes only where the whole is meant to be gone.
    enum class PutRight { stays, goes_too };
    base::Result<std::vector<records::Entry>> take_back(const std::vector<records::Entry>& journal,
                                                        std::vector<records::Entry> meant,
                                                        const std::string& reason, const Now& now,
                                                        PutRight put_right = PutRight::stays);
    /// Reads what was added to the file since.
    [[nodiscard]] base::Result<void> read_news() const;
    /// Of the last entry on record, set aside or not; 0 in an empty journal.
    [[nodiscard]] records::FactId last_read() const { return read_.empty() ? 0 : read_.back().id; }
    /// The journal as whoever had seen it up to `last` saw it.
    [[nodiscard]] base::Result<std::vector<records::Entry>> journal_up_to(records::FactId last) const;
    /// Forgets all entries but the first `count`.
    void forget(std::size_t count) const;
    [[nodiscard]] base::Result<worklist::Task> task_seen(records::FactId last, const std::string& key,
                                                         units::Day day) const;
    [[nodiscard]] base::Result<worklist::Task> find_task(const Tap& tap, const Now& now) const;
    [[nodiscard]] base::Result<std::optional<records::Entry>> mark_of(const std::string& key,
                                                                      const Now& now) const;
    [[nodiscard]] std::optional<base::Error> did_other_work(const records::Entry& mark, const Tap& tap,
                                                            const Now& now) const;
    [[nodiscard]] std::optional<base::Error> answers_otherwise(const records::Entry& mark,
                                                               const Tap& tap) const;
    base::Result<Ticked> settle(const Tap& tap, worklist::TaskState wanted, const std::string& reason,
                                const Now& now);
    [[nodiscard]] base::Result<Ticked> ticked(const records::Entry& mark, bool already) const;
    [[nodiscard]] base::Result<std::optional<records::Entry>> mark_to_take_back(const TakeBack& asked) const;
    [[nodiscard]] base::Result<std::vector<records::Entry>> written_together(
        const records::Entry& mark) const;
    [[nodiscard]] base::Result<std::vector<records::Entry>> written_with(const records::Entry& mark) const;
    [[nodiscard]] base::Result<Ticked> reopened_before(const records::Entry& mark, const Now& now) const;
    [[nodiscard]] base::Result<Ticked> made_no_mark(const TakeBack& asked, const Now& now);
    [[nodiscard]] base::Result<void> forestall(const std::string& request);
    [[nodiscard]] store::NewEntry row(units::Day day, const Now& now, records::Fact fact,
                                      std::optional<records::FactId> corrects = {}) const;

    mutable store::CollectionFile file_;
    mutable std::vector<records::Entry> read_;  ///< entries are only ever added to the file
    mutable records::Unreadable unreadable_;    ///< those of them whose fact could not be read
    mutable std::vector<records::SetAside> set_aside_;
    mutable std::shared_ptr<const Situation> situation_;  ///< the last asked for
    const Knowledge* knowledge_;
    std::string request_;  ///< key of the request at work; empty without one
};

template <class Work>
std::invoke_result_t<Work> Keeper::alone(Work work) {
    /// What was read of entries that were not kept is forgotten, however the work ends.
    struct Unread {
        const Keeper& keeper;
        std::size_t known;
        bool kept = false;
        ~Unread() {
            if (!kept) keeper.forget(known);
        }
    } unread{*this, read_.size()};
    std::invoke_result_t<Work> result = base::fail({});
    const auto done = file_.undivided([&]() -> base::Result<void> {
        result = work();
        if (!result) return base::fail(result.error());
        return {};
    });
    if (!done) return base::fail(done.error());
    unread.kept = true;
    return result;
}

/// Whether the facts fit the journal together.
[[nodiscard]] base::Result<void> check_together(const std::vector<records::Entry>& journal,
                                                const std::vector<DatedFact>& facts, const Now& now);

}  // namespace mitefall::service
