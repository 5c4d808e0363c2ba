#include "safety/wet_book.h"

#include <algorithm>
#include <set>

#include "safety/methods.h"

namespace mitefall::safety {
namespace {

using records::Method;
using units::Day;
using units::Days;

using units::one_day;

/// Each enclosure it lived in, once.
std::set<records::EnclosureId> homes_of(const records::Animal& animal) {
    std::set<records::EnclosureId> homes{animal.enclosure};
    for (const records::Residence& stay : animal.stays) homes.insert(stay.enclosure);
    return homes;
}

void fill(std::vector<Day>& days, Day from, Day end) {
    for (Day day = from; day < end; day += one_day) days.push_back(day);
}

void sort_once(std::vector<Day>& days) {
    std::sort(days.begin(), days.end());
    days.erase(std::unique(days.begin(), days.end()), days.end());
}

Days count_before(const std::vector<Day>& days, Day day) {
    return Days(std::lower_bound(days.begin(), days.end(), day) - days.begin());
}

Days count_after(const std::vector<Day>& days, Day day) {
    return Days(days.end() - std::upper_bound(days.begin(), days.end(), day));
}

/// When the paper in the enclosure was sprayed, or wetted again.
std::vector<records::Dated> wettings_on_record(const records::Enclosure& enclosure) {
    std::vector<records::Dated> wettings = enclosure.wetted;
    for (const auto& given : enclosure.treatments) {
        if (given.value.method == Method::spray_bedding) wettings.push_back({given.day, given.entry});
    }
    return wettings;
}

/// The days of the course before the collection's day on which the paper under whoever lay on most of it was
/// sprayed or wetted again, ascending. Where nobody lives, under nobody.
std::vector<Day> damp_on_record(const records::Collection& collection, const records::Enclosure& enclosure,
                                const Inside& inside, const WetLimits& limits) {
    const auto is_of_course = [&](Day day) {
        return day > collection.day - limits.course && day < collection.day;
    };
    const auto days_in = [&](const records::Enclosure& place, const records::Animal* animal,
                             std::vector<Day>& days) {
        for (const records::Dated& wetting : wettings_on_record(place)) {
            const bool lay_there = animal == nullptr || lived_in(*animal, place.id, wetting.day);
            if (is_of_course(wetting.day) && lay_there) days.push_back(wetting.day);
        }
    };
    std::vector<Day> most;
    if (inside.empty()) days_in(enclosure, nullptr, most);
    for (const records::Animal* animal : inside) {
        std::vector<Day> days;
        for (const records::EnclosureId& id : homes_of(*animal)) {
            const auto place = collection.enclosures.find(id);
            if (place != collection.enclosures.end()) days_in(place->second, animal, days);
        }
        sort_once(days);
        if (days.size() > most.size()) most = std::move(days);
    }
    sort_once(most);
    return most;
}

/// Days after which the paper was dry, as far as they are on record.
std::vector<Day> ends_of_wet_paper(const records::Enclosure& enclosure) {
    std::vector<Day> ends;
    for (const records::DrySpell& spell : enclosure.dry_spells) ends.push_back(spell.back);
    if (enclosure.substrate_changed) ends.push_back(*enclosure.substrate_changed);
    for (const auto& given : enclosure.treatments) {
        if (records::row_of(given.value.method).paper == records::Paper::renewed) ends.push_back(given.day);
    }
    return ends;
}

/// The last day on which the paper was sprayed in the course in force, if that keeps it damp and no new paper
/// was laid since.
std::optional<Day> damp_since(const records::Collection& collection, const records::Enclosure& enclosure) {
    std::optional<Day> since;
    if (!collection.plan || !collection.plan->value.choices.keep_damp) return since;
    const auto& treated = collection.plan->value.enclosures;
    if (std::find(treated.begin(), treated.end(), enclosure.id) == treated.end()) return since;
    for (const auto& given : enclosure.treatments) {
        const bool counts =
            given.value.method == Method::spray_bedding && given.day >= *collection.course_since();
        if (counts) since = std::max(since.value_or(given.day), given.day);
    }
    const bool is_new = since && enclosure.substrate_changed && *enclosure.substrate_changed > *since;
    return is_new ? std::nullopt : since;
}

bool is_sprayed_on(const records::Enclosure& enclosure, Day day, bool paper_only) {
    return std::any_of(enclosure.treatments.begin(), enclosure.treatments.end(), [&](const auto& given) {
        const bool counts = paper_only ? given.value.method == Method::spray_bedding
                                       : is_ivermectin_spray(given.value.method);
        return counts && given.day == day;
    });
}

}  // namespace

bool was_wetted_again(const records::Enclosure& enclosure, Day day) {
    return std::any_of(enclosure.wetted.begin(), enclosure.wetted.end(),
                       [&](const records::Dated& wetting) { return wetting.day == day; });
}

std::vector<WetPaper> wet_paper(const records::Enclosure& enclosure, const WetLimits& limits) {
    std::vector<WetPaper> all;
    for (const records::Dated& since : wettings_on_record(enclosure)) {
        Day dry = since.day + limits.dish_out;
        for (const Day end : ends_of_wet_paper(enclosure)) {
            if (end > since.day) dry = std::min(dry, end + one_day);
        }
        all.push_back({since, dry});
    }
    return all;
}

std::vector<LainOn> paper_under(const records::Collection& collection, const records::Animal& animal,
                                const WetLimits& limits) {
    constexpr auto key = [](const records::Dated& dated) { return std::pair(dated.day, dated.entry); };
    std::vector<LainOn> all;
    for (const records::Residence& stay : animal.stays) {
        const auto place = collection.enclosures.find(stay.enclosure);
        if (place == collection.enclosures.end()) continue;
        const records::Dated there{stay.from, stay.entry};
        for (const WetPaper& paper : wet_paper(place->second, limits)) {
            const records::Dated known = key(paper.since) < key(there) ? there : paper.since;
            const Day end = std::min(paper.dry, stay.until.value_or(paper.dry) + one_day);
            all.push_back({std::max(paper.since.day, stay.from), end, known});
        }
    }
    return all;
}

WetBook::WetBook(const records::Collection& collection, const records::Enclosure& enclosure,
                 const Inside& inside, std::vector<Day> rounds, Day today, const WetLimits& limits)
    : rounds_(std::move(rounds)), today_(today), limits_(limits), damp_until_(today) {
    read_dish(collection, enclosure, inside);
    read_paper(collection, enclosure, inside);
    now_ = start_;
}

WetBook WetBook::for_rounds(std::vector<Day> rounds) const {
    WetBook other = *this;
    other.rounds_ = std::move(rounds);
    other.wettings_.clear();
    other.now_ = other.start_;
    return other;
}

void WetBook::read_dish(const records::Collection& collection, const records::Enclosure& enclosure,
                        const Inside& inside) {
    const Dish dish = dish_of(collection, enclosure, inside, limits_);
    start_.dry = safety::days_without_dish(collection, enclosure, inside, limits_);
    if (dish.last) {
        start_.back = dish.last->back;
        start_.out = dish.last->back - limits_.dish_out;  // it has just come back: it stays
    }
    if (dish.is_out) {
        // Out since nobody knows when is out too long.
        start_.out = dish.since.value_or(today_ - limits_.dish_out);
        start_.back = today_;
    } else if (is_sprayed_on(enclosure, today_, false) && start_.back != today_) {
        start_.out = start_.back = today_;
    }
}

/// What was sprayed today is wet today; what was sprayed before stays wet as long as the course says.
void WetBook::read_paper(const records::Collection& collection, const records::Enclosure& enclosure,
                         const Inside& inside) {
    start_.damp = damp_on_record(collection, enclosure, inside, limits_);
    if (start_.out + limits_.dish_out <= today_) return;  // the dish is in, or comes in today
    if (start_.back < today_) return;
    if (const auto since = damp_since(collection, enclosure); since && *since <= today_)
        damp_until_ = std::max(today_, end_of_damp(*since, collection.plan->value.rounds, start_));
    if (is_sprayed_on(enclosure, today_, true)) damp_until_ = std::max(damp_until_, today_ + one_day);
    start_.back = damp_until_;
    if (is_sprayed_on(enclosure, today_, false)) start_.back = std::max(start_.back, today_ + one_day);
    fill(start_.damp, today_, damp_until_);
    fill(start_.dry, today_, start_.back);
}

Day WetBook::end_of_damp(Day sprayed, const std::vector<Day>& rounds, const Timetable& so_far) const {
    const Day from = std::max(sprayed, today_);
    const Days to_come = count_after(rounds, from);
    Day end = so_far.out + limits_.dish_out;
    end = std::min(end, from + limits_.damp - count_before(so_far.damp, from) - to_come);
    end = std::min(end, from + limits_.dry - count_before(so_far.dry, from) - to_come);
    const auto next = std::upper_bound(rounds.begin(), rounds.end(), sprayed);
    return next == rounds.end() ? end : std::min(end, *next - one_day);
}

std::optional<Against> WetBook::write(const Wetting& wetting, Timetable& into) const {
    const Day day = wetting.day;
    if (day < today_) return says::day_is_over();
    const bool goes_on = day <= into.back && day < into.out + limits_.dish_out;
    if (!goes_on && day <= into.back) return says::dish_must_be_in(day);
    if (!goes_on) into.out = into.back = day;
    Day end = day + one_day;
    if (wetting.of_paper && !into.kept.empty()) into.kept.back().dry = std::min(into.kept.back().dry, day);
    if (wetting.of_paper && wetting.damp_before) {
        end = std::max(end, std::min(*wetting.damp_before, end_of_damp(day, rounds_, into)));
        into.kept.push_back({day, end});
    }
    fill(into.dry, into.back, end);
    into.back = std::max(into.back, end);
    if (wetting.of_paper) fill(into.damp, day, end);
    sort_once(into.damp);
    return too_long(into);
}

std::optional<Against> WetBook::too_long(const Timetable& timetable) const {
    const auto number = [](Days days) { return static_cast<double>(days.count()); };
    if (Days(timetable.dry.size()) > limits_.dry) return says::dish_out_too_long(number(limits_.dry));
    if (Days(timetable.damp.size()) > limits_.damp) return says::paper_wet_too_long(number(limits_.damp));
    return std::nullopt;
}

std::optional<Against> WetBook::write_all(const std::vector<Wetting>& wettings, Timetable& into) const {
    into = start_;
    for (const Wetting& one_of_them : wettings) {
        if (auto refusal = write(one_of_them, into)) return refusal;
    }
    return std::nullopt;
}

std::vector<Wetting> WetBook::with(const Wetting& wetting) const {
    std::vector<Wetting> all = wettings_;
    const auto is_before = [](const Wetting& a, const Wetting& b) { return a.day < b.day; };
    all.insert(std::upper_bound(all.begin(), all.end(), wetting, is_before), wetting);
    return all;
}

std::optional<Against> WetBook::refusal(const Wetting& wetting) const {
    Timetable tried;
    return write_all(with(wetting), tried);
}

std::optional<Against> WetBook::add(const Wetting& wetting) {
    std::vector<Wetting> all = with(wetting);
    Timetable tried;
    if (auto refusal = write_all(all, tried)) return refusal;
    wettings_ = std::move(all);
    now_ = std::move(tried);
    return std::nullopt;
}

int WetBook::days_without_dish() const { return static_cast<int>(now_.dry.size() - start_.dry.size()); }

Day damp_until(const records::Collection& collection, const records::Enclosure& enclosure,
               const Inside& inside, const WetLimits& limits) {
    return WetBook(collection, enclosure, inside, {}, collection.day, limits).damp_until();
}

}  // namespace mitefall::safety
