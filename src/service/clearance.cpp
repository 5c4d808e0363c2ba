#include "service/clearance.h"

#include <algorithm>
#include <cmath>

#include "clearance/freedom.h"
#include "safety/handling.h"
#include "safety/permit.h"
#include "service/course_to_come.h"

namespace mitefall::service {
namespace {

using base::ErrorKind;
using base::fail;
using base::Result;
using clearance::Progress;
using clearance::Standing;
using records::CheckMethod;
using records::EnclosureId;
using scenario::PlaceIndex;
using scenario::Scenario;
using units::Day;
using units::Days;

constexpr std::array later_days{3, 7, 14};  // days from now on which the best checks are tried too
constexpr std::size_t tried_later = 2;
constexpr std::size_t draws_of_ends = 32;  // at most, of the answers were looks to show little, or much
constexpr std::array all_methods{CheckMethod::look_over, CheckMethod::soak, CheckMethod::wipe,
                                 CheckMethod::paper_trap};

/// The keeper's records as a standing, with everything it refers to.
class Stand {
  public:
    explicit Stand(const Planned& planned)
        : planned_(planned), known_(*planned.known), scenario_(scenario_from_today(planned)) {
        Scenario told = known_.scenario;
        for (const PlaceIndex seen_at : known_.sighted) told.places[seen_at].set_apart = true;
        if (planned.collection->plan) {
            const auto course = fit(worklist::assignment_on_record(*planned.collection), *planned.setting);
            scenario_ = scenario_from_today(planned, course);
            told = apply(course, *planned.setting, std::move(told));
            for (const plan::Round& round : course.rounds)
                course_goes_on_ = course_goes_on_ || !round.treatments.empty();
        }
        groups_ = network::lump(told).members;
        for (const auto& [id, place] : known_.enclosures) enclosure_at_[place] = id;
        for (const auto& [id, place] : known_.rooms) room_at_[place] = id;
    }

    /// `draws` and `start` must outlive the answer.
    [[nodiscard]] Standing with(const mites::Ensemble& draws, const belief::Belief& belief) const {
        return {&scenario_, &draws, &belief, known_.from, today(), 0};
    }

    /// What the records say, with these draws.
    [[nodiscard]] belief::Belief belief_with(const mites::Ensemble& draws, const Knowledge& knowledge,
                                             std::uint64_t seed) const {
        return belief_of(known_, draws, knowledge, seed);
    }

    [[nodiscard]] double today() const { return known_.time_of(planned_.setting->today); }
    [[nodiscard]] Day last_sighting() const {
        return known_.origin + Days(static_cast<int>(std::lround(known_.from)));
    }
    [[nodiscard]] Day origin() const { return known_.origin; }
    [[nodiscard]] bool course_goes_on() const { return course_goes_on_; }
    [[nodiscard]] const std::vector<clearance::PlaceGroup>& groups() const { return groups_; }

    [[nodiscard]] std::vector<EnclosureId> enclosures_in(const clearance::PlaceGroup& group) const {
        std::vector<EnclosureId> ids;
        for (const PlaceIndex place : group) {
            if (const auto found = enclosure_at_.find(place); found != enclosure_at_.end())
                ids.push_back(found->second);
        }
        return ids;
    }
    [[nodiscard]] records::RoomId room_in(const clearance::PlaceGroup& group) const {
        const auto found = room_at_.find(group.front());
        return found == room_at_.end() ? records::RoomId() : found->second;
    }
    [[nodiscard]] PlaceIndex place_of(const EnclosureId& id) const { return known_.enclosures.at(id); }

    /// Where mites were seen, what the course treats, and every other exposed enclosure.
    [[nodiscard]] std::vector<EnclosureId> watched() const {
        std::set<EnclosureId> ids = planned_.setting->exposed;
        for (const PlaceIndex seen_at : known_.sighted) ids.insert(enclosure_at_.at(seen_at));
        if (const auto& plan = planned_.collection->plan)
            ids.insert(plan->value.enclosures.begin(), plan->value.enclosures.end());
        std::erase_if(ids, [&](const EnclosureId& id) { return !known_.enclosures.contains(id); });
        return {ids.begin(), ids.end()};
    }

  private:
    const Planned& planned_;
    const scenario::RecordedCase& known_;
    Scenario scenario_;
    std::vector<clearance::PlaceGroup> groups_;
    std::map<PlaceIndex, EnclosureId> enclosure_at_;
    std::map<PlaceIndex, records::RoomId> room_at_;
    bool course_goes_on_ = false;
};

class ClearanceWriter {
  public:
    ClearanceWriter(const Planned& planned, const Knowledge& knowledge, const ClearanceOptions& options)
        : knowledge_(knowledge), options_(options), stand_(planned) {
        answer_.origin = stand_.origin();
        answer_.last_sighting = stand_.last_sighting();
        answer_.today = planned.setting->today;
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
        const auto draws = mites::draw_parameters(knowledge_.tables, options_.draws, options_.seed);
        const auto belief = stand_.belief_with(draws, knowledge_, options_.seed);
        const Standing standing = stand_.with(draws, belief);
        if (!say_of_places(standing, 0, 0.3)) return fail(cancelled());
        if (!look(standing, true, 0.3, 0.9, answer_.outlook)) return fail(cancelled());
        using clearance::DetectionEnd;
        const auto few =
            mites::draw_parameters(knowledge_.tables, std::min(options_.draws, draws_of_ends), options_.seed);
        if (!look_at_end(few, DetectionEnd::low, 0.9, 0.95, answer_.at_low)) return fail(cancelled());
        if (!look_at_end(few, DetectionEnd::high, 0.95, 1, answer_.at_high)) return fail(cancelled());
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
    [[nodiscard]] bool look_at_end(const mites::Ensemble& draws, clearance::DetectionEnd at, double begin,
                                   double end, clearance::Outlook& into) const {
        const auto there = clearance::with_detection_at(draws, knowledge_.tables, at);
        const auto belief = stand_.belief_with(there, knowledge_, options_.seed);
        return look(stand_.with(there, belief), false, begin, end, into);
    }

    [[nodiscard]] bool look(const Standing& standing, bool with_waiting, double begin, double end,
                            clearance::Outlook& into) const {
        auto outlook = look_ahead(standing, rounds_, certainty_levels, with_waiting,
                                  part_of(options_.progress, begin, end));
        if (outlook) into = std::move(*outlook);
        return outlook.has_value();
    }

    const Knowledge& knowledge_;
    const ClearanceOptions& options_;
    Stand stand_;
    clearance::Rounds rounds_;
    clearance::CollectionAnswer answer_;
};

/// Which checks may be done, and what they cost.
class CheckOffice {
  public:
    CheckOffice(const Planned& planned, const Knowledge& knowledge)
        : planned_(planned), knowledge_(knowledge) {}

    [[nodiscard]] bool permits(const EnclosureId& enclosure, CheckMethod method, Day day) const {
        switch (method) {
            case CheckMethod::look_over: return !safety::is_venomous_inside(*planned_.with, enclosure);
            case CheckMethod::paper_trap: return true;
            case CheckMethod::soak: return all_permit(enclosure, records::Method::soak, day);
            case CheckMethod::wipe: return all_permit(enclosure, records::Method::wipe, day);
        }
        return false;
    }

    [[nodiscard]] int animals_in(const EnclosureId& enclosure) const {
        return static_cast<int>(planned_.collection->animals_in(enclosure).size());
    }

    [[nodiscard]] units::TimeSpan work(const EnclosureId& enclosure, CheckMethod method) const {
        const int animals = animals_in(enclosure);
        switch (method) {
            case CheckMethod::look_over: return time("effort_look_over") * std::max(1, animals);
            case CheckMethod::soak: return time("effort_soak") * animals;
            case CheckMethod::wipe: return time("effort_wipe") * animals;
            case CheckMethod::paper_trap: return time("effort_paper_trap");
        }
        return {};
    }

  private:
    [[nodiscard]] units::TimeSpan time(evidence::TimeKey key) const {
        return knowledge_.tables.time(key).value;
    }

    [[nodiscard]] bool all_permit(const EnclosureId& enclosure, records::Method method, Day day) const {
        const auto animals = planned_.collection->animals_in(enclosure);
        return !animals.empty() && std::all_of(animals.begin(), animals.end(), [&](const auto* animal) {
            return safety::permit(*planned_.with, animal->id, {method, {}, day}, {}).has_value();
        });
    }

    const Planned& planned_;
    const Knowledge& knowledge_;
};

class NextCheckWriter {
  public:
    NextCheckWriter(const Planned& planned, const Knowledge& knowledge, const ClearanceOptions& options)
        : planned_(planned),
          options_(options),
          office_(planned, knowledge),
          stand_(planned),
          draws_(mites::draw_parameters(knowledge.tables, options.draws, options.seed)),
          belief_(stand_.belief_with(draws_, knowledge, options.seed)) {}

    [[nodiscard]] Result<clearance::NextCheckAnswer> write(const Knowledge& knowledge) {
        auto values = value(candidates_today(), 0, 0.7);
        if (!values) return fail(cancelled());
        const auto later = value(candidates_later(*values), 0.7, 1);
        if (!later) return fail(cancelled());
        values->insert(values->end(), later->begin(), later->end());
        std::stable_sort(values->begin(), values->end(),
                         [](const auto& a, const auto& b) { return a.finds_if_left > b.finds_if_left; });
        clearance::NextCheckAnswer answer{
            stand_.last_sighting(), planned_.setting->today, {}, spot_check(knowledge)};
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
            stand_.with(draws_, belief_), std::move(candidates), 6, part_of(options_.progress, begin, end)});
    }

    [[nodiscard]] clearance::NextCheck name(const clearance::CheckValue& value) const {
        const clearance::Candidate& check = value.candidate;
        auto ids = permitted(check.group, check.method, check.time);
        const bool in_hand = check.method != CheckMethod::paper_trap;
        const int animals = in_hand ? office_.animals_in(ids.front()) : 0;
        const units::TimeSpan work = office_.work(ids.front(), check.method);
        return {std::move(ids), day_of(check.time), animals, work, value};
    }

    [[nodiscard]] clearance::SpotCheck spot_check(const Knowledge& knowledge) const {
        clearance::SpotCheck spot;
        for (const auto& [id, enclosure] : planned_.collection->enclosures)
            spot.enclosures += office_.animals_in(id) > 0 ? 1 : 0;
        if (spot.enclosures == 0) return spot;
        const double share = units::as_fraction(knowledge.tables.part("design_share").value);
        spot.with_mites = static_cast<int>(std::ceil(share * spot.enclosures));
        spot.to_check = clearance::enclosures_to_check(
            spot.enclosures, spot.with_mites,
            units::as_fraction(knowledge.tables.part("detection_light").value), spot.confidence);
        return spot;
    }

    const Planned& planned_;
    const ClearanceOptions& options_;
    CheckOffice office_;
    Stand stand_;
    mites::Ensemble draws_;
    belief::Belief belief_;
};

}  // namespace

Result<clearance::CollectionAnswer> clearance_of(const Planned& planned, const Knowledge& knowledge,
                                                 const ClearanceOptions& options) {
    return ClearanceWriter(planned, knowledge, options).write();
}

Result<clearance::NextCheckAnswer> next_check_of(const Planned& planned, const Knowledge& knowledge,
                                                 const ClearanceOptions& options) {
    return NextCheckWriter(planned, knowledge, options).write(knowledge);
}

}  // namespace mitefall::service
