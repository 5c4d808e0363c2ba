#include "worklist/late.h"

#include <algorithm>
#include <set>

#include "records/task_key.h"
#include "safety/shed.h"
#include "safety/water.h"
#include "worklist/worklist.h"

namespace mitefall::worklist {
namespace {

using records::Collection;
using records::EnclosureId;
using records::PlanAdopted;
using units::Day;
using units::Days;

bool is_of_round(const records::TaskKey& key, Day round) {
    return key.day == round && records::row_of(key.part).is_of_round;
}

/// Tasks of the round that are done, under whichever day they were ticked.
int done_of(const Collection& collection, Day round) {
    std::set<std::string> done;
    for (const auto& [text, mark] : collection.done) {
        for (const std::string& as : keys_under(text, collection.plan->value.moved)) {
            const auto key = records::read_task_key(as);
            if (key && is_of_round(*key, round)) done.insert(as);
        }
    }
    return static_cast<int>(done.size());
}

/// The rounds that may be late, by their place in the course: the last one due where its day is over, and
/// those before it of which nothing is done, as far as nothing is done of any after them.
std::vector<std::size_t> rounds_in_question(const Collection& collection) {
    std::vector<std::size_t> rounds;
    if (!collection.plan) return rounds;
    const std::vector<Day>& days = collection.plan->value.rounds;
    auto at =
        static_cast<std::size_t>(std::upper_bound(days.begin(), days.end(), collection.day) - days.begin());
    while (at-- > 0) {
        const bool is_last_due = at + 1 == days.size() || days[at + 1] > collection.day;
        const bool is_begun = done_of(collection, days[at]) > 0;
        if (days[at] < collection.day && (is_last_due || !is_begun)) rounds.push_back(at);
        if (is_begun) break;
    }
    std::reverse(rounds.begin(), rounds.end());
    return rounds;
}

/// The course as it was on that day: places that came later were not to be treated.
plan::Assignment only_round(plan::Assignment assignment, Day round, const Collection& then) {
    assignment.rounds = {round};
    std::erase_if(assignment.enclosures, [&](const auto& id) { return !then.enclosures.contains(id); });
    std::erase_if(assignment.rooms, [&](const auto& id) { return !then.rooms.contains(id); });
    return assignment;
}

/// Where the task is today; nullopt: what it is about has left the collection or the course.
std::optional<EnclosureId> place_now(const std::string& task, const plan::Assignment& assignment,
                                     const Collection& today) {
    const auto key = records::read_task_key(task);
    if (!key) return std::nullopt;
    const records::NameOf name_of = records::row_of(key->part).name_of;
    if (name_of == records::NameOf::room) return EnclosureId();
    if (name_of == records::NameOf::thing) return std::nullopt;  // no treatment of a round
    EnclosureId enclosure(key->name);
    if (name_of == records::NameOf::animal) {
        const auto animal = today.animals.find(records::AnimalId(key->name));
        if (animal == today.animals.end()) return std::nullopt;
        enclosure = animal->second.enclosure;
    }
    const auto& treated = assignment.enclosures;
    const bool is_treated = std::find(treated.begin(), treated.end(), enclosure) != treated.end();
    return is_treated ? std::optional(enclosure) : std::nullopt;
}

/// It was only to be done on that day if somebody there had shed by then.
bool counts_on_a_shed(const safety::PermittedTreatment& treatment, const safety::Case& with) {
    const auto inside = with.survey.inside.find(treatment.enclosure());
    if (inside == with.survey.inside.end()) return false;
    return std::any_of(inside->second.begin(), inside->second.end(), [&](const records::AnimalId& animal) {
        return safety::shed_awaited(with.collection.animals.at(animal), with.collection.day, with.tables)
            .has_value();
    });
}

class Finder {
  public:
    Finder(const plan::Setting& setting, const Worklist& list, const std::map<Day, const safety::Case*>& then)
        : setting_(setting),
          list_(list),
          then_(then),
          collection_(setting.with.collection),
          assignment_(assignment_on_record(collection_)) {}

    Late find() {
        add_dishes();
        add_check();
        const auto rounds = rounds_in_question(collection_);
        std::optional<std::size_t> first;
        for (const std::size_t at : rounds) {
            const LateRound round = look_at(at);
            if (round.tasks == 0) continue;
            late_.rounds.push_back(round);
            first = first.value_or(at);
        }
        if (!first) return std::move(late_);
        const PlanAdopted& plan = collection_.plan->value;
        late_.today = redate(plan, *first, setting_.today, CatchUp::today);
        late_.move = redate(plan, *first, setting_.today, CatchUp::move);
        if (late_.move->rounds == late_.today->rounds) late_.move.reset();
        return std::move(late_);
    }

  private:
    void add_dishes() {
        const safety::WetLimits limits = safety::wet_limits(setting_.with.tables);
        for (const Task& task : list_.tasks) {
            if (!task.overdue || task.state != TaskState::open) continue;
            const safety::Dish dish =
                safety::dish_of(collection_, collection_.enclosures.at(task.enclosure),
                                safety::inside_of(collection_, setting_.with.survey, task.enclosure), limits);
            late_.dishes.push_back({task.enclosure, dish.since, safety::back_by(dish, limits)});
        }
    }

    void add_check() {
        for (const Task& task : list_.tasks) {
            const bool is_late = task.planned < task.day && task.state == TaskState::open;
            if (task.kind != TaskKind::check || !is_late) continue;
            if (!late_.check) late_.check = LateCheck{task.planned, {}};
            late_.check->enclosures.push_back(task.enclosure);
        }
    }

    LateRound look_at(std::size_t at) {
        const std::vector<Day>& days = assignment_.rounds;
        LateRound round;
        round.number = static_cast<int>(at) + 1;
        round.of = static_cast<int>(days.size());
        round.planned = days[at];
        round.done = done_of(collection_, round.planned);
        round.overtaken = at + 1 < days.size() && days[at + 1] <= setting_.today;
        std::set<EnclosureId> enclosures;
        for (const std::string& task : due_of(round)) {
            const auto place = place_now(task, assignment_, collection_);
            if (!place) continue;
            ++round.tasks;
            if (!place->empty()) enclosures.insert(*place);
            round.today += is_listed(task) ? 1 : 0;
        }
        round.enclosures = static_cast<int>(enclosures.size());
        return round;
    }

    /// Permitted on the day of the round, or on the day before today where its turn was not over by then.
    std::set<std::string> due_of(const LateRound& round) {
        std::set<std::string> due = due_on(round.planned, round.planned);
        if (!round.overtaken) due.merge(due_on(round.planned, setting_.today - Days(1)));
        return due;
    }

    std::set<std::string> due_on(Day round, Day day) {
        std::set<std::string> due;
        const auto found = then_.find(day);
        if (found == then_.end()) return due;
        const safety::Case& with = *found->second;
        const plan::Setting then{with, setting_.known, setting_.exposed, day, setting_.strength};
        const auto schedule = plan::fit(only_round(assignment_, round, with.collection), then);
        for (const plan::Round& fitted : schedule.rounds) {
            if (fitted.day >= setting_.today) continue;
            for (const plan::ScheduledTreatment& one : fitted.treatments) {
                if (fitted.day == day || !counts_on_a_shed(one.treatment, with)) due.insert(one.key());
            }
        }
        return due;
    }

    [[nodiscard]] bool is_listed(const std::string& task) const {
        return std::any_of(list_.tasks.begin(), list_.tasks.end(),
                           [&](const Task& one) { return one.key == task && one.state == TaskState::open; });
    }

    const plan::Setting& setting_;
    const Worklist& list_;
    const std::map<Day, const safety::Case*>& then_;
    const Collection& collection_;
    plan::Assignment assignment_;
    Late late_;
};

/// What was ticked under the old day, or under one before it, belongs to the new one.
void note_move(std::vector<records::MovedRound>& moved, Day from, Day to) {
    if (from == to) return;
    for (records::MovedRound& earlier : moved) {
        if (earlier.to == from) earlier.to = to;
    }
    moved.push_back({from, to});
}

/// The last round due is done today; those missed before it are given up.
void do_today(Redated& course, std::size_t first, Day today) {
    std::vector<Day>& rounds = course.rounds;
    const auto due =
        static_cast<std::size_t>(std::upper_bound(rounds.begin(), rounds.end(), today) - rounds.begin()) - 1;
    note_move(course.moved, rounds[due], today);
    rounds[due] = today;
    const auto from = rounds.begin() + static_cast<std::ptrdiff_t>(std::min(first, due));
    const auto to = rounds.begin() + static_cast<std::ptrdiff_t>(due);
    course.given_up.assign(from, to);
    rounds.erase(from, to);
    for (std::size_t i = std::min(first, due) + 1; i < rounds.size(); ++i) {
        const Day soonest = rounds[i - 1] + Days(plan::shortest_interval);
        if (rounds[i] >= soonest) break;
        course.held.push_back({rounds[i], soonest});
        rounds[i] = soonest;
    }
}

void move_rest(Redated& course, std::size_t first, Day today) {
    const Days by = today - course.rounds[first];
    note_move(course.moved, course.rounds[first], today);
    for (std::size_t i = first; i < course.rounds.size(); ++i) course.rounds[i] += by;
}

}  // namespace

std::vector<Day> days_in_question(const Collection& today) {
    std::set<Day> days;
    for (const std::size_t at : rounds_in_question(today)) days.insert(today.plan->value.rounds[at]);
    if (!days.empty()) days.insert(today.day - Days(1));
    return {days.begin(), days.end()};
}

Late late_on(const plan::Setting& setting, const Worklist& list,
             const std::map<Day, const safety::Case*>& then) {
    return Finder(setting, list, then).find();
}

Redated redate(const PlanAdopted& plan, std::size_t first, Day today, CatchUp how) {
    Redated course{plan.rounds, plan.moved, {}, {}};
    if (how == CatchUp::today)
        do_today(course, first, today);
    else
        move_rest(course, first, today);
    return course;
}

}  // namespace mitefall::worklist
