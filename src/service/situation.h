#pragma once

#include <atomic>
#include <compare>
#include <condition_variable>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <set>
#include <vector>

#include "belief/belief.h"
#include "clearance/standing.h"
#include "exposure/tracing.h"
#include "plan/schedule.h"
#include "records/collection.h"
#include "safety/check.h"
#include "scenario/history.h"
#include "service/knowledge.h"
#include "service/once.h"
#include "service/wood_tubs.h"
#include "worklist/worklist.h"

namespace mitefall::service {

/// An enclosure with at least this chance on its best path counts as exposed (assumption E1, docs/model.md).
inline constexpr double exposed_from = 0.02;

/// The draws a belief is formed with.
struct Draws {
    std::size_t count = 0;
    std::uint64_t seed = 1;
    std::optional<clearance::DetectionEnd> looks_at{};  ///< how well looks show mites, if not as drawn
    friend auto operator<=>(const Draws&, const Draws&) = default;
};

/// What the records say with these draws and the prior of the evidence.
struct Believed {
    mites::Ensemble ensemble;
    belief::Belief belief;
};

/// The collection as a journal has it on a day, and what follows from that: each part is made when it is
/// first asked for, and kept for every later question. Never changes; any thread. What it gives by reference
/// lives as long as it does.
class Situation : public std::enable_shared_from_this<Situation> {
  public:
    using Journal = std::vector<records::Entry>;
    using Progress = std::function<bool(double)>;

    /// `journal`: as Keeper gives it. `knowledge` outlives the situation.
    [[nodiscard]] static std::shared_ptr<const Situation> of(Journal journal, units::Day today,
                                                             const Knowledge& knowledge);
    /// The same journal on another day.
    [[nodiscard]] std::shared_ptr<const Situation> on(units::Day day) const;
    /// The same on the next day with work, kept: every screen shows what is to be done then.
    [[nodiscard]] const Situation& on_next(units::Day day) const;

    [[nodiscard]] const Journal& journal() const { return *journal_; }
    [[nodiscard]] units::Day today() const { return today_; }
    [[nodiscard]] const Knowledge& knowledge() const { return *knowledge_; }
    /// Number of the last entry; 0 in an empty journal.
    [[nodiscard]] records::FactId entry() const { return journal_->empty() ? 0 : journal_->back().id; }

    [[nodiscard]] const records::Collection& collection() const;
    /// The collection at the end of another day. The days before today that a list or a case looks back to
    /// are folded together, in one walk.
    [[nodiscard]] const records::Collection& collection_then(units::Day day) const;
    [[nodiscard]] const safety::Case& judged() const;  ///< the collection with its verdicts
    /// Who may have been reached by the mites of the outbreak at hand. Error not_found without one. Where
    /// they were seen longer ago than contacts are traced it is told as it stood on the last day that still
    /// looked back to the sighting.
    [[nodiscard]] const base::Result<exposure::Tracing>& tracing() const;
    /// What is on record of mites and what was done about them.
    [[nodiscard]] const base::Result<scenario::RecordedCase>& known() const;
    /// Enclosures that count as exposed; none without an outbreak.
    [[nodiscard]] const std::set<records::EnclosureId>& exposed() const;

    /// Of the adopted plan, else the usual one.
    [[nodiscard]] units::Strength strength_in_use() const;
    /// What a plan is made for; points into the situation. Errors as `tracing` and `known`.
    [[nodiscard]] base::Result<plan::Setting> setting(units::Strength strength) const;
    /// The same with the tubs a plan may empty wood into, as if they were there; as it is where there is no
    /// wood.
    [[nodiscard]] plan::Setting with_wood(const plan::Setting& setting) const;
    /// What a plan without a find is made for. Errors: conflict where there is an outbreak, not_found without
    /// an animal.
    [[nodiscard]] base::Result<plan::Setting> setting_to_prevent(units::Strength strength) const;
    /// Of the adopted course, whether it is against mites that were seen or to prevent. Errors as `setting`.
    [[nodiscard]] base::Result<plan::Setting> setting_of_course() const;
    /// What a wait is reckoned from, whether mites were seen or not. Errors of `known`.
    [[nodiscard]] base::Result<plan::Setting> setting_of_wait() const;
    /// What is believed of the collection, whether mites were seen or not. Errors as `setting_to_prevent`,
    /// but for conflict.
    [[nodiscard]] base::Result<plan::Setting> setting_of_belief() const;
    /// The same at the strength in use, and where there is no outbreak or it cannot be told: for the work of
    /// a day.
    [[nodiscard]] plan::Setting setting_of_work() const;
    /// The same for what does not look at mites: nothing is traced and no case is made.
    [[nodiscard]] plan::Setting setting_of_treatment() const;

    /// Formed at the first question with these draws. Error conflict where `progress` answered false: then
    /// nothing is kept. Errors of `known`.
    [[nodiscard]] base::Result<std::shared_ptr<const Believed>> believed(const Draws& draws,
                                                                         const Progress& progress) const;

    /// The day's tasks, and with what is late of them, as service/worklist.h makes them: every screen shows
    /// them.
    using Work = base::Result<worklist::Worklist>;
    template <class Make>
    [[nodiscard]] const Work& tasks(Make make) const {
        return tasks_.get(make);
    }
    template <class Make>
    [[nodiscard]] const Work& work(Make make) const {
        return work_.get(make);
    }

    /// How often each part was made: that nothing is made twice can be tested.
    struct Made {
        std::atomic<int> folds, walks_back, tracings, cases, beliefs;
    };
    [[nodiscard]] const Made& made() const { return made_; }

  private:
    Situation(std::shared_ptr<const Journal> journal, units::Day today, const Knowledge& knowledge)
        : journal_(std::move(journal)), today_(today), knowledge_(&knowledge) {}

    [[nodiscard]] std::shared_ptr<const Believed> kept(const Draws& draws) const;
    [[nodiscard]] units::TimeSpan look_back() const;
    void walk_back(std::set<units::Day> days) const;

    std::shared_ptr<const Journal> journal_;
    units::Day today_;
    const Knowledge* knowledge_;
    Once<records::Collection> collection_;
    Once<safety::Case> judged_;
    /// The collection with a tub for each wooden enclosure, and its verdicts.
    struct WithTubs {
        WoodTubs tubs;
        records::Collection collection;
        std::optional<safety::Case> judged;
    };
    Once<std::unique_ptr<const WithTubs>> with_tubs_;
    Once<base::Result<exposure::Tracing>> tracing_;
    Once<base::Result<scenario::RecordedCase>> known_;
    Once<std::set<records::EnclosureId>> exposed_;
    Once<Work> tasks_, work_;
    Once<std::shared_ptr<const Situation>> next_;
    mutable std::mutex days_guard_;
    mutable std::map<units::Day, records::Collection> days_;  ///< other days
    mutable std::mutex beliefs_guard_;
    mutable std::condition_variable formed_;
    mutable std::set<Draws> forming_;
    mutable std::deque<std::pair<Draws, std::shared_ptr<const Believed>>> beliefs_;  ///< the latest last
    mutable Made made_{};
};

}  // namespace mitefall::service
