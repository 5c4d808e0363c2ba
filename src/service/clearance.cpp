#include "service/clearance.h"

#include <algorithm>

#include "service/stand.h"

namespace mitefall::service {
namespace {

using clearance::Standing;
using records::EnclosureId;

constexpr std::size_t draws_of_ends = 32;  // at most, of the answers were looks to show little, or much

class ClearanceWriter {
  public:
    ClearanceWriter(const Situation& situation, const plan::Setting& setting, const ClearanceOptions& options)
        : situation_(situation), options_(options), stand_(setting) {
        answer_.origin = stand_.origin();
        answer_.last_sighting = stand_.last_sighting();
        answer_.today = setting.today;
        answer_.course_goes_on = stand_.course_goes_on();
        answer_.looked_at = stand_.watched();
        answer_.method = options.method;
        answer_.interval_days = options.interval_days;
        rounds_ = {{},
                   options.method,
                   stand_.today() + options.interval_days,
                   static_cast<double>(options.interval_days),
                   options.rounds};
        for (const EnclosureId& id : answer_.looked_at) rounds_.places.push_back(stand_.place_of(id));
    }

    [[nodiscard]] Result<clearance::CollectionAnswer> write() {
        const Draws draws{options_.draws, options_.seed};
        const auto believed = situation_.believed(draws, options_.progress);
        if (!believed) return fail(believed.error());
        const Standing standing = stand_.with(**believed);
        if (!say_of_places(standing, 0, 0.3)) return fail(cancelled());
        if (!look(standing, true, 0.3, 0.9, answer_.outlook)) return fail(cancelled());
        using clearance::DetectionEnd;
        if (!look_at_end(DetectionEnd::low, 0.9, 0.95, answer_.at_low)) return fail(cancelled());
        if (!look_at_end(DetectionEnd::high, 0.95, 1, answer_.at_high)) return fail(cancelled());
        return std::move(answer_);
    }

  private:
    [[nodiscard]] bool say_of_places(const Standing& standing, double begin, double end) {
        const auto sure = sure_of_groups(standing, stand_.groups(), part_of(options_.progress, begin, end));
        if (!sure) return false;
        for (std::size_t i = 0; i < sure->size(); ++i) {
            const clearance::PlaceGroup& group = stand_.groups()[i];
            answer_.places.push_back({stand_.enclosures_in(group), stand_.room_in(group), (*sure)[i]});
        }
        std::stable_sort(answer_.places.begin(), answer_.places.end(),
                         [](const auto& a, const auto& b) { return a.sure.risk.mean > b.sure.risk.mean; });
        return true;
    }

    /// What is believed depends on how well looks show mites.
    [[nodiscard]] bool look_at_end(clearance::DetectionEnd at, double begin, double end,
                                   clearance::Outlook& into) const {
        const Draws few{std::min(options_.draws, draws_of_ends), options_.seed, at};
        const auto believed = situation_.believed(few, part_of(options_.progress, begin, end));
        return believed && look(stand_.with(**believed), false, begin, end, into);
    }

    [[nodiscard]] bool look(const Standing& standing, bool with_waiting, double begin, double end,
                            clearance::Outlook& into) const {
        auto outlook = look_ahead(standing, rounds_, certainty_levels, with_waiting,
                                  part_of(options_.progress, begin, end));
        if (outlook) into = std::move(*outlook);
        return outlook.has_value();
    }

    const Situation& situation_;
    const ClearanceOptions& options_;
    Stand stand_;
    clearance::Rounds rounds_;
    clearance::CollectionAnswer answer_;
};

}  // namespace

Result<clearance::CollectionAnswer> clearance_of(const Situation& situation,
                                                 const ClearanceOptions& options) {
    const auto setting = situation.setting_of_belief();
    if (!setting) return fail(setting.error());
    return ClearanceWriter(situation, *setting, options).write();
}

Result<base::Band> sure_of_today(const Situation& situation, const ClearanceOptions& options) {
    const auto setting = situation.setting(situation.strength_in_use());
    if (!setting) return fail(setting.error());
    const auto believed = situation.believed({options.draws, options.seed}, options.progress);
    if (!believed) return fail(believed.error());
    const auto sure = clearance::sure_of_collection(Stand(*setting).with(**believed), options.progress);
    if (!sure) return fail(cancelled());
    return sure->clear;
}

}  // namespace mitefall::service
