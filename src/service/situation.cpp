#include "service/situation.h"

#include <algorithm>
#include <chrono>

#include "worklist/late.h"

namespace mitefall::service {
namespace {

using records::Collection;
using units::Day;

constexpr std::size_t most_beliefs = 4;            ///< kept; the usual draws, and looks at both their ends
constexpr std::chrono::milliseconds patience{50};  ///< between looks whether somebody who waits still does

base::Error no_outbreak(const Collection& today) {
    const auto& all = today.sightings;
    return {
        ErrorKind::not_found,
        all.empty() ? "no mite has been reported"
                    : "the last mites were reported on " + units::show_day(all.back().day) +
                          ", too long ago to plan from",
        {},
        {},
        "record what you saw as a sighting; where the mites came from tells whether some may be there all "
        "the same",
        {}};
}

base::Error seen_already(const Collection& today) {
    return {ErrorKind::conflict,
            "mites were reported on " + units::show_day(today.sightings.back().day),
            {},
            "to prevent: no mite was reported lately",
            "ask for a plan against them; contact with the outside since then counts there too",
            {}};
}

base::Error nobody_to_protect() {
    return {ErrorKind::not_found,
            "no animal is on record yet",
            {},
            {},
            "begin with a room, an enclosure and an animal",
            {}};
}

}  // namespace

std::shared_ptr<const Situation> Situation::of(Journal journal, Day today, const Knowledge& knowledge) {
    return std::shared_ptr<const Situation>(
        new Situation(std::make_shared<const Journal>(std::move(journal)), today, knowledge));
}

std::shared_ptr<const Situation> Situation::on(Day day) const {
    if (day == today_) return shared_from_this();
    return std::shared_ptr<const Situation>(new Situation(journal_, day, *knowledge_));
}

const Situation& Situation::on_next(Day day) const {
    return *next_.get(
        [&] { return std::shared_ptr<const Situation>(new Situation(journal_, day, *knowledge_)); });
}

units::TimeSpan Situation::look_back() const { return knowledge_->tables.time("look_back").value; }

const Collection& Situation::collection() const {
    return collection_.get([&] {
        ++made_.folds;
        return records::collection_on(*journal_, today_);
    });
}

void Situation::walk_back(std::set<Day> days) const {
    ++made_.walks_back;
    const std::vector<Day> in_order(days.begin(), days.end());
    for (Collection& then : records::collections_on(*journal_, in_order))
        days_.emplace(then.day, std::move(then));
}

const Collection& Situation::collection_then(Day day) const {
    if (day == today_) return collection();
    std::set<Day> days{day};
    const Collection& now = collection();
    const std::scoped_lock lock(days_guard_);
    if (const auto found = days_.find(day); found != days_.end()) return found->second;
    if (days_.empty()) {
        const std::vector<Day> in_question = worklist::days_in_question(now);
        days.insert(in_question.begin(), in_question.end());
        days.insert(scenario::day_before_case(*journal_, now, look_back()));
        if (const auto seen = scenario::last_seen(now, look_back())) days.insert(seen->reaches);
        days.erase(today_);
    }
    walk_back(std::move(days));
    return days_.at(day);
}

const safety::Case& Situation::judged() const {
    return judged_.get([&] { return safety::prepare(collection(), knowledge_->tables, knowledge_->taxa); });
}

const Result<exposure::Tracing>& Situation::tracing() const {
    return tracing_.get([&]() -> Result<exposure::Tracing> {
        const auto seen = scenario::last_seen(collection(), look_back());
        if (!seen) return fail(no_outbreak(collection()));
        ++made_.tracings;
        return exposure::trace(*journal_, collection_then(seen->reaches), knowledge_->tables,
                               seen->enclosures);
    });
}

const Result<scenario::RecordedCase>& Situation::known() const {
    return known_.get([&] {
        ++made_.cases;
        const Collection& before =
            collection_then(scenario::day_before_case(*journal_, collection(), look_back()));
        return scenario::case_from_records({*journal_, collection(), before}, look_back(),
                                           mites::fixed_parameters(knowledge_->tables));
    });
}

const std::set<records::EnclosureId>& Situation::exposed() const {
    return exposed_.get([&] {
        std::set<records::EnclosureId> exposed;
        if (!tracing()) return exposed;
        for (const exposure::Exposed& row : tracing()->exposed) {
            if (!row.sighted && row.chance >= exposed_from) exposed.insert(row.enclosure);
        }
        return exposed;
    });
}

units::Strength Situation::strength_in_use() const {
    const auto& plan = collection().plan;
    return plan ? plan->value.strength : usual_strength(*knowledge_);
}

Result<plan::Setting> Situation::setting(units::Strength strength) const {
    if (!tracing()) return fail(tracing().error());
    if (!known()) return fail(known().error());
    return plan::Setting{judged(), *known(), exposed(), today_, strength};
}

plan::Setting Situation::with_wood(const plan::Setting& setting) const {
    const auto& tubs = with_tubs_.get([&] {
        auto made = std::make_unique<WithTubs>();
        made->tubs = tubs_for_wood(collection());
        if (made->tubs.wood.empty()) return std::unique_ptr<const WithTubs>(std::move(made));
        made->collection = service::with_tubs(collection(), made->tubs.added);
        made->judged.emplace(safety::prepare(made->collection, knowledge_->tables, knowledge_->taxa));
        return std::unique_ptr<const WithTubs>(std::move(made));
    });
    if (!tubs->judged) return setting;
    return {*tubs->judged,    setting.known,  setting.exposed, setting.today,
            setting.strength, setting.limits, tubs->tubs.wood};
}

Result<plan::Setting> Situation::setting_to_prevent(units::Strength strength) const {
    if (tracing()) return fail(seen_already(collection()));
    if (tracing().error().kind != ErrorKind::not_found) return fail(tracing().error());
    if (collection().animals.empty()) return fail(nobody_to_protect());
    if (!known()) return fail(known().error());
    return plan::Setting{judged(), *known(), {}, today_, strength};
}

Result<plan::Setting> Situation::setting_of_course() const {
    const bool is_against_mites = tracing().has_value() || !collection().plan;
    return is_against_mites ? setting(strength_in_use()) : setting_to_prevent(strength_in_use());
}

Result<plan::Setting> Situation::setting_of_wait() const {
    if (!known()) return fail(known().error());
    return plan::Setting{judged(), *known(), exposed(), today_, strength_in_use()};
}

Result<plan::Setting> Situation::setting_of_belief() const {
    return tracing() ? setting(strength_in_use()) : setting_to_prevent(strength_in_use());
}

plan::Setting Situation::setting_of_work() const {
    if (const auto setting = setting_of_wait()) return *setting;
    plan::Setting setting = setting_of_treatment();
    setting.exposed = exposed();
    return setting;
}

plan::Setting Situation::setting_of_treatment() const {
    static const scenario::RecordedCase nothing;
    return {judged(), nothing, {}, today_, strength_in_use()};
}

std::shared_ptr<const Believed> Situation::kept(const Draws& draws) const {
    const auto found = std::find_if(beliefs_.begin(), beliefs_.end(),
                                    [&](const auto& belief) { return belief.first == draws; });
    return found == beliefs_.end() ? nullptr : found->second;
}

Result<std::shared_ptr<const Believed>> Situation::believed(const Draws& draws,
                                                            const Progress& progress) const {
    if (!known()) return fail(known().error());
    const belief::GoesOn goes_on = [&] { return !progress || progress(0); };
    {
        std::unique_lock lock(beliefs_guard_);
        while (forming_.contains(draws)) {
            formed_.wait_for(lock, patience);
            lock.unlock();
            if (!goes_on()) return fail(cancelled());
            lock.lock();
        }
        if (auto belief = kept(draws)) return belief;
        forming_.insert(draws);
    }
    /// However it ends, whoever waits goes on.
    struct Forming {
        const Situation& situation;
        const Draws& draws;
        std::shared_ptr<const Believed> formed{};
        ~Forming() {
            const std::scoped_lock lock(situation.beliefs_guard_);
            situation.forming_.erase(draws);
            if (formed) situation.beliefs_.emplace_back(draws, formed);
            if (situation.beliefs_.size() > most_beliefs) situation.beliefs_.pop_front();
            situation.formed_.notify_all();
        }
    } forming{*this, draws};
    ++made_.beliefs;
    auto ensemble = mites::draw_parameters(knowledge_->tables, draws.count, draws.seed);
    if (draws.looks_at)
        ensemble = clearance::with_detection_at(std::move(ensemble), knowledge_->tables, *draws.looks_at);
    auto belief = belief::believe_records(*known(), ensemble, belief::introduction_prior(knowledge_->tables),
                                          draws.seed, goes_on);
    if (!belief) return fail(cancelled());
    belief::put_heavy_blocks_first(ensemble, *belief);
    forming.formed = std::make_shared<const Believed>(Believed{std::move(ensemble), std::move(*belief)});
    return forming.formed;
}

}  // namespace mitefall::service
