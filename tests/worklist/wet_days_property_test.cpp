#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <map>
#include <set>

#include "plan/stage.h"
#include "records/task_key.h"
#include "safety/plain_water.h"
#include "shared/random_collections.h"
#include "worklist/worklist.h"

// Random collections, courses and days against the rules of water, wet paper and working order told a second
// time. scripts/deep_checks.sh runs 100,000 of each.
namespace mitefall::worklist {
namespace {

using records::EnclosureId;
using records::Method;
using safety::plain::DaySet;

void add_any_dish(records::Enclosure& place) {
    if (safety::one_in(3)) {
        const units::Day out = safety::today() - safety::days(*rc::gen::inRange(4, 20));
        place.dry_spells.push_back({out, out + safety::days(*rc::gen::inRange(1, 4))});
    }
    place.water_is_out = safety::one_in(2);
    if (place.water_is_out && !safety::one_in(5))
        place.water_out_since = safety::today() - safety::days(*rc::gen::inRange(0, 5));
}

/// A course that began some days ago, with some of its paper sprayed.
void add_any_course(safety::Scene& scene) {
    records::Collection& collection = scene.collection;
    const units::Day first = safety::today() - safety::days(*rc::gen::inRange(0, 15));
    records::PlanAdopted plan;
    const int interval = *rc::gen::inRange(3, 15);
    for (int i = *rc::gen::inRange(1, 6); i > 0; --i)
        plan.rounds.push_back(first + safety::days(interval * static_cast<int>(plan.rounds.size())));
    for (const auto& [id, place] : collection.enclosures) plan.enclosures.push_back(id);
    plan.choices.change_substrate = *rc::gen::arbitrary<bool>();
    plan.choices.keep_damp = !safety::one_in(4);
    plan.choices.soak_animals = safety::one_in(4);
    plan.strength = safety::mg_per_l(10);
    for (auto& [id, place] : collection.enclosures) {
        if (safety::one_in(2)) continue;
        const units::Day on = safety::today() - safety::days(*rc::gen::inRange(0, 4));
        place.treatments.push_back({on, 1, {id, {}, Method::spray_bedding, safety::mg_per_l(10)}});
    }
    // Most of what was due before is done.
    for (const units::Day round : plan.rounds) {
        for (const EnclosureId& id : plan.enclosures) {
            if (round > safety::today() || safety::one_in(4)) continue;
            collection.done[records::to_text(round, records::TaskPart::bedding, id.text())].day =
                safety::today() - safety::days(1);
        }
    }
    collection.plan = {first, 1, plan};
}

safety::Scene any_day() {
    safety::Scene scene = safety::any_scene();
    for (auto& [id, place] : scene.collection.enclosures) add_any_dish(place);
    for (auto& [id, animal] : scene.collection.animals) animal.quarantine = safety::one_in(4);
    add_any_course(scene);
    return scene;
}

plan::Stage::Enclosures any_places() {
    plan::Stage::Enclosures chosen;
    for (const char* const name : {"tub", "vivarium", "far"}) {
        if (safety::one_in(2)) chosen.insert(EnclosureId(name));
    }
    return chosen;
}

TEST(CourseProperties, no_course_leaves_an_animal_dry_or_its_paper_wet_for_too_long) {
    EXPECT_TRUE(rc::check([] {
        safety::Scene scene = any_day();
        const plan::Stage stage(std::move(scene), any_places(), any_places());
        const plan::Schedule schedule = plan::fit(assignment_on_record(stage.collection()), stage.setting);
        std::map<EnclosureId, DaySet> wet;
        std::map<EnclosureId, DaySet> damp;
        for (const plan::Round& round : schedule.rounds) {
            for (const plan::ScheduledTreatment& scheduled : round.treatments) {
                const auto& treatment = scheduled.treatment;
                if (!safety::plain::is_spray(treatment.method())) continue;
                wet[treatment.enclosure()].insert(treatment.day());
                if (treatment.method() == Method::spray_bedding)
                    damp[treatment.enclosure()].insert(treatment.day());
            }
        }
        for (const plan::DampSpell& spell : schedule.damp) {
            RC_ASSERT(stage.collection().plan->value.choices.keep_damp);
            RC_ASSERT(damp[spell.enclosure].contains(spell.first - safety::days(1)));
            for (units::Day day = spell.first; day <= spell.last; day += safety::days(1)) {
                wet[spell.enclosure].insert(day);
                damp[spell.enclosure].insert(day);
                for (const auto* animal : stage.collection().animals_in(spell.enclosure)) {
                    RC_ASSERT(safety::plain::may_be_done(stage.collection(), *animal, Method::spray_bedding,
                                                         10, day, {}));
                }
            }
        }
        RC_CLASSIFY(!wet.empty(), "sprays");
        RC_CLASSIFY(!schedule.damp.empty(), "keeps paper damp");
        for (const auto& [id, on] : wet) {
            const auto& place = stage.collection().enclosures.at(id);
            const std::string wrong = safety::plain::wrong_with(stage.collection(), place, on, damp[id]);
            RC_LOG() << wrong;
            RC_ASSERT(wrong.empty());
        }
    }));
}

bool wets(const Task& task) {
    const bool is_spray = task.treatment && safety::plain::is_spray(task.treatment->method());
    return task.state == TaskState::open && (is_spray || task.kind == TaskKind::redampen);
}

void check_dish(const std::vector<Task>& tasks, const records::Collection& collection) {
    std::set<EnclosureId> without;
    for (const auto& [id, place] : collection.enclosures) {
        if (place.water_is_out) without.insert(id);
    }
    std::set<EnclosureId> wetted;
    std::set<EnclosureId> back;
    std::set<EnclosureId> drinks;
    for (const Task& task : tasks) {
        if (task.kind == TaskKind::water_out) without.insert(task.enclosure);
        if (task.kind == TaskKind::water_back) back.insert(task.enclosure);
        if (task.kind == TaskKind::drink) drinks.insert(task.enclosure);
        if (!wets(task)) continue;
        RC_ASSERT(without.contains(task.enclosure));  // already out, or taken out further up the list
        wetted.insert(task.enclosure);
    }
    for (const EnclosureId& id : wetted) {
        const auto& place = collection.enclosures.at(id);
        const std::string wrong = safety::plain::wrong_with(collection, place, {collection.day}, {});
        RC_LOG() << wrong;
        RC_ASSERT(wrong.empty());
        RC_ASSERT(!back.contains(id));
    }
    for (const EnclosureId& id : without) {
        const bool drinks_somewhere = back.contains(id) || drinks.contains(id);
        RC_ASSERT(drinks_somewhere || collection.animals_in(id).empty());
    }
}

/// Healthy 0, exposed 1, in quarantine 2, with mites 3, with mites in quarantine 4.
int turn(const EnclosureId& id, const plan::Stage& stage, const plan::Stage::Enclosures& sighted) {
    bool is_new = false;
    for (const auto* animal : stage.collection().animals_in(id)) is_new = is_new || animal->quarantine;
    if (sighted.contains(id)) return is_new ? 4 : 3;
    if (is_new) return 2;
    return stage.setting.exposed.contains(id) ? 1 : 0;
}

int turn(const records::RoomId& room, const plan::Stage& stage, const plan::Stage::Enclosures& sighted) {
    int last = 0;
    for (const auto& [id, place] : stage.collection().enclosures) {
        if (place.room == room) last = std::max(last, turn(id, stage, sighted));
    }
    return last;
}

/// The mix, washing, and what an ill animal or a death asks for, which comes before everything.
bool has_a_place_of_its_own(TaskKind kind) {
    return kind == TaskKind::hygiene || kind == TaskKind::mix || kind == TaskKind::vet ||
           kind == TaskKind::dry_tub;
}

void check_order(const std::vector<Task>& tasks, const plan::Stage& stage,
                 const plan::Stage::Enclosures& sighted) {
    const Task* before = nullptr;
    bool washed = false;
    for (const Task& task : tasks) {
        washed = washed || task.kind == TaskKind::hygiene;
        if (has_a_place_of_its_own(task.kind)) continue;
        if (before != nullptr) {
            const int was = turn(before->enclosure, stage, sighted);
            const int is = turn(task.enclosure, stage, sighted);
            RC_ASSERT(before->overdue >= task.overdue);
            const bool goes_on = before->overdue == task.overdue;
            RC_ASSERT(!goes_on || turn(before->room, stage, sighted) <= turn(task.room, stage, sighted));
            RC_ASSERT(!goes_on || before->room != task.room || was <= is);
            const bool is_apart = before->enclosure != task.enclosure && std::max(was, is) > 0;
            RC_ASSERT(washed || (before->room == task.room && !is_apart));
        }
        before = &task;
        washed = false;
    }
}

TEST(CourseProperties, no_day_wets_where_the_dish_is_in_and_the_order_holds) {
    EXPECT_TRUE(rc::check([] {
        const auto sighted = any_places();
        safety::Scene scene = any_day();
        const plan::Stage stage(std::move(scene), sighted, any_places());
        const Worklist list = make_worklist(stage.setting);
        const auto wets_again = [](const Task& task) { return task.kind == TaskKind::redampen; };
        RC_CLASSIFY(std::any_of(list.tasks.begin(), list.tasks.end(), wets), "wets something");
        RC_CLASSIFY(std::any_of(list.tasks.begin(), list.tasks.end(), wets_again), "wets paper again");
        check_dish(list.tasks, stage.collection());
        check_order(list.tasks, stage, sighted);
    }));
}

}  // namespace
}  // namespace mitefall::worklist
