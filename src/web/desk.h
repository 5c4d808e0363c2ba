#pragma once

#include <functional>
#include <mutex>
#include <string>

#include "service/keeper.h"

namespace mitefall::web {

/// The collection file the program serves, and the clock. Any thread.
class Desk {
  public:
    using Clock = std::function<service::Now()>;

    /// `keeper` has been opened from `file`. `knowledge` outlives the desk.
    Desk(std::string file, service::Keeper keeper, const service::Knowledge& knowledge, Clock clock)
        : file_(std::move(file)),
          keeper_(std::move(keeper)),
          knowledge_(&knowledge),
          clock_(std::move(clock)) {}

    /// Asks the keeper, one at a time: what one request reads and then writes no other comes between.
    template <class F>
    [[nodiscard]] auto ask(F&& question) {
        const std::scoped_lock lock(guard_);
        return std::forward<F>(question)(keeper_);
    }

    [[nodiscard]] const service::Knowledge& knowledge() const { return *knowledge_; }
    [[nodiscard]] const std::string& file() const { return file_; }
    [[nodiscard]] service::Now now() const { return clock_(); }

    /// Today's records made ready to be asked, the same for every reader. Asking them holds up nobody.
    [[nodiscard]] base::Result<std::shared_ptr<const service::Situation>> situation() {
        return ask([&](const service::Keeper& keeper) { return keeper.situation(now().today); });
    }
    /// The same as they stood up to entry `last`, on that day.
    [[nodiscard]] base::Result<std::shared_ptr<const service::Situation>> situation(records::FactId last,
                                                                                    units::Day day) {
        return ask([&](const service::Keeper& keeper) { return keeper.situation(last, day); });
    }
    /// What `question` answers of today's situation and what else it needs to know.
    template <class Question, class... Needs>
    [[nodiscard]] auto answer(Question question, const Needs&... needs)
        -> service::AnswerOf<decltype(question(std::declval<const service::Situation&>(), needs...))> {
        const auto today = situation();
        if (!today) return base::fail(today.error());
        return question(**today, needs...);
    }

    /// Number of the last entry of the journal, whoever wrote it; 0 in an empty one.
    [[nodiscard]] base::Result<records::FactId> last_entry() {
        return ask([](const service::Keeper& keeper) { return keeper.last_entry(); });
    }

  private:
    std::string file_;
    std::mutex guard_;
    service::Keeper keeper_;
    const service::Knowledge* knowledge_;
    Clock clock_;
};

}  // namespace mitefall::web
