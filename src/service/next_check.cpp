#include <algorithm>
#include <cmath>

#include "clearance/freedom.h"
#include "safety/handling.h"
#include "safety/permit.h"
#include "service/clearance.h"
#include "service/stand.h"

namespace mitefall::service {
namespace {

using records::CheckMethod;
using records::EnclosureId;
using units::Day;
using units::Days;

constexpr std::array later_days{3, 7, 14};  // days from now on which the best checks are tried too
constexpr std::size_t tried_later = 2;
constexpr std::array all_methods{CheckMethod::look_over, CheckMethod::soak, CheckMethod::wipe,
                                 CheckMethod::paper_trap};

/// Which checks may be done, and what they cost.
class CheckOffice {
  public:
    explicit CheckOffice(const Situation& situation) : situation_(situation) {}

    [[nodiscard]] bool permits(const EnclosureId& enclosure, CheckMethod method, Day day) const {
        switch (method) {
            case CheckMethod::look_over: return !safety::is_venomous_inside(situation_.judged(), enclosure);
            case CheckMethod::paper_trap: return true;
            case CheckMethod::soak: return all_permit(enclosure, records::Method::soak, day);
            case CheckMethod::wipe: return all_permit(enclosure, records::Method::wipe, day);
        }
        return false;
    }

    [[nodiscard]] int animals_in(const EnclosureId& enclosure) const {
        return static_cast<int>(situation_.collection().animals_in(enclosure).size());
    }

    [[nodiscard]] units::TimeSpan work(const EnclosureId& enclosure, CheckMethod method) const {
        const int number = animals_in(enclosure);
        switch (method) {
            case CheckMethod::look_over: return time("effort_look_over") * std::max(1, number);
            case CheckMethod::soak: return time("effort_soak") * number;
            case CheckMethod::wipe: return time("effort_wipe") * number;
            case CheckMethod::paper_trap: return time("effort_paper_trap");
        }
        return {};
    }

  private:
    [[nodiscard]] units::TimeSpan time(evidence::TimeKey key) const {
        return situation_.knowledge().tables.time(key).value;
    }

    [[nodiscard]] bool all_permit(const EnclosureId& enclosure, records::Method method, Day day) const {
        const auto living = situation_.collection().animals_in(enclosure);
        return !living.empty() && std::all_of(living.begin(), living.end(), [&](const auto* animal) {
            return safety::permit(situation_.judged(), animal->id, {method, {}, day}, {}).has_value();
        });
    }

    const Situation& situation_;
};

class NextCheckWriter {
  public:
    NextCheckWriter(const Situation& situation, const plan::Setting& setting, const ClearanceOptions& options)
        : situation_(situation), options_(options), office_(situation), stand_(setting) {}

    [[nodiscard]] Result<clearance::NextCheckAnswer> write() {
        const auto believed = situation_.believed({options_.draws, options_.seed}, options_.progress);
        if (!believed) return fail(believed.error());
        believed_ = *believed;
        auto values = value(candidates_today(), 0, 0.7);
        if (!values) return fail(cancelled());
        const auto later = value(candidates_later(*values), 0.7, 1);
        if (!later) return fail(cancelled());
        values->insert(values->end(), later->begin(), later->end());
        std::stable_sort(values->begin(), values->end(),
                         [](const auto& a, const auto& b) { return a.finds_if_left > b.finds_if_left; });
        clearance::NextCheckAnswer answer{stand_.last_sighting(), situation_.today(), {}, spot_check()};
        for (const clearance::CheckValue& value : *values) answer.checks.push_back(name(value));
        return answer;
    }

  private:
    [[nodiscard]] Day day_of(double time) const {
        return stand_.origin() + Days(static_cast<int>(std::lround(time)));
    }

    /// The enclosures of a group that permit the check.
    [[nodiscard]] std::vector<EnclosureId> permitted(std::size_t group, CheckMethod method,
                                                     double time) const {
        std::vector<EnclosureId> ids = stand_.enclosures_in(stand_.groups()[group]);
        std::erase_if(ids, [&](const EnclosureId& id) { return !office_.permits(id, method, day_of(time)); });
        return ids;
    }

    void add_if_permitted(std::size_t group, CheckMethod method, double time,
                          std::vector<clearance::Candidate>& into) const {
        const auto ids = permitted(group, method, time);
        if (!ids.empty()) into.push_back({group, stand_.place_of(ids.front()), method, time});
    }

    [[nodiscard]] std::vector<clearance::Candidate> candidates_today() const {
        std::vector<clearance::Candidate> candidates;
        for (std::size_t group = 0; group < stand_.groups().size(); ++group) {
            for (const CheckMethod method : all_methods)
                add_if_permitted(group, method, stand_.today(), candidates);
        }
        return candidates;
    }

    [[nodiscard]] std::vector<clearance::Candidate> candidates_later(
        const std::vector<clearance::CheckValue>& best) const {
        std::vector<clearance::Candidate> candidates;
        for (std::size_t i = 0; i < std::min(tried_later, best.size()); ++i) {
            for (const int days : later_days)
                add_if_permitted(best[i].candidate.group, best[i].candidate.method, stand_.today() + days,
                                 candidates);
        }
        return candidates;
    }

    [[nodiscard]] std::optional<std::vector<clearance::CheckValue>> value(
        std::vector<clearance::Candidate> candidates, double begin, double end) const {
        return clearance::value_checks(clearance::NextCheckRequest{
            stand_.with(*believed_), std::move(candidates), 6, part_of(options_.progress, begin, end)});
    }

    [[nodiscard]] clearance::NextCheck name(const clearance::CheckValue& value) const {
        const clearance::Candidate& check = value.candidate;
        auto ids = permitted(check.group, check.method, check.time);
        const bool in_hand = check.method != CheckMethod::paper_trap;
        const int handled = in_hand ? office_.animals_in(ids.front()) : 0;
        const units::TimeSpan work = office_.work(ids.front(), check.method);
        return {std::move(ids), day_of(check.time), handled, work, value};
    }

    [[nodiscard]] clearance::SpotCheck spot_check() const {
        const Knowledge& knowledge = situation_.knowledge();
        clearance::SpotCheck spot;
        for (const auto& [id, enclosure] : situation_.collection().enclosures)
            spot.enclosures += office_.animals_in(id) > 0 ? 1 : 0;
        if (spot.enclosures == 0) return spot;
        const double share = units::as_fraction(knowledge.tables.part("design_share").value);
        spot.with_mites = static_cast<int>(std::ceil(share * spot.enclosures));
        spot.to_check = clearance::enclosures_to_check(
            spot.enclosures, spot.with_mites,
            units::as_fraction(knowledge.tables.part("detection_light").value), spot.confidence);
        return spot;
    }

    const Situation& situation_;
    const ClearanceOptions& options_;
    CheckOffice office_;
    Stand stand_;
    std::shared_ptr<const Believed> believed_;
};

}  // namespace

Result<clearance::NextCheckAnswer> next_check_of(const Situation& situation,
                                                 const ClearanceOptions& options) {
    const auto setting = situation.setting_of_belief();
    if (!setting) return fail(setting.error());
    return NextCheckWriter(situation, *setting, options).write();
}

}  // namespace mitefall::service
