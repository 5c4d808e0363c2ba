#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>
#include <utility>
#include <vector>

#include "safety/permit.h"
#include "shared/random_collections.h"
#include "stage.h"
#include "words/words.h"

// Random courses on random collections: whatever is scheduled is asked for again, one animal at a time.
namespace mitefall::plan {
namespace {

using records::Method;
using safety::CourseSoFar;

Course any_course() {
    return {*rc::gen::inRange(1, most_rounds + 1),
            *rc::gen::inRange(shortest_interval, longest_interval + 1),
            {*rc::gen::arbitrary<bool>(), *rc::gen::arbitrary<bool>(), *rc::gen::arbitrary<bool>()},
            *rc::gen::element(Scope::sighted, Scope::sighted_rooms, Scope::exposed, Scope::everything),
            *rc::gen::arbitrary<bool>()};
}

Stage::Enclosures any_enclosures() {
    Stage::Enclosures chosen;
    for (const char* const name : {"tub", "vivarium", "far"}) {
        if (*rc::gen::arbitrary<bool>()) chosen.insert(enclosure(name));
    }
    return chosen;
}

double any_strength() { return *rc::gen::element(10.0, 10.0, 12.0, 200.0); }

/// A course as adopted, or as it stands some days later with nothing done.
Assignment any_assignment(const Setting& setting) {
    Assignment assignment = assign(any_course(), setting);
    const auto late = days(safety::one_in(2) ? *rc::gen::inRange(0, 20) : 0);
    for (units::Day& round : assignment.rounds) round -= late;
    return assignment;
}

/// Walks through a schedule in its order; `visit` sees each treatment with what was scheduled before it.
template <class Visit>
void walk(const Schedule& schedule, Visit visit) {
    CourseSoFar before;
    for (const Round& round : schedule.rounds) {
        for (const ScheduledTreatment& scheduled : round.treatments) {
            const auto& treatment = scheduled.treatment;
            visit(round, scheduled, std::as_const(before));
            for (const auto& id : treatment.animals())
                before[id].push_back({treatment.method(), treatment.day()});
        }
    }
}

std::vector<safety::Application> of(const CourseSoFar& course, const records::AnimalId& id) {
    const auto found = course.find(id);
    return found == course.end() ? std::vector<safety::Application>{} : found->second;
}

bool plainly(const Stage& stage, const records::Animal& one, Method method, units::Day day,
             const CourseSoFar& before) {
    const double strength = units::in_milligrams_per_litre(stage.setting.strength);
    return safety::plain::may_be_done(stage.collection(), one, method,
                                      method == Method::treat_room ? 5000 : strength, day,
                                      of(before, one.id));
}

TEST(ScheduleProperties, every_treatment_is_permitted_to_each_of_its_animals) {
    EXPECT_TRUE(rc::check([] {
        const Stage stage(safety::any_scene(), any_enclosures(), any_enclosures(), safety::today(),
                          any_strength());
        const Schedule schedule = fit(any_assignment(stage.setting), stage.setting);
        walk(schedule,
             [&](const Round& round, const ScheduledTreatment& scheduled, const CourseSoFar& before) {
                 const auto& treatment = scheduled.treatment;
                 RC_ASSERT(treatment.day() == round.day);
                 RC_ASSERT(treatment.day() >= stage.setting.today);
                 for (const auto& id : treatment.animals()) {
                     const records::Animal& one = stage.collection().animals.at(id);
                     const auto verdict =
                         safety::judge(stage.setting.with, one,
                                       {treatment.method(), treatment.strength(), treatment.day()}, before);
                     RC_ASSERT(safety::permits(verdict));
                     RC_ASSERT(plainly(stage, one, treatment.method(), treatment.day(), before));
                 }
             });
    }));
}

// The words are held against the treatments themselves, counted here once more.
TEST(ScheduleProperties, a_course_is_told_by_what_it_does) {
    EXPECT_TRUE(rc::check([] {
        const Stage stage(safety::any_scene(), any_enclosures(), any_enclosures(), safety::today(),
                          any_strength());
        const Course course = any_course();
        const Schedule schedule = fit(assign(course, stage.setting), stage.setting);
        std::set<Method> held;
        walk(schedule, [&](const auto&, const ScheduledTreatment& scheduled, const auto&) {
            held.insert(scheduled.treatment.method());
        });
        const std::string text = words::say(tell(course, schedule.assignment.rounds, schedule.does));
        const auto says = [&](const char* part) { return text.find(part) != std::string::npos; };
        RC_ASSERT(says("animals sprayed") == held.contains(Method::spray_animal));
        RC_ASSERT(says("soaked") == held.contains(Method::soak));
        RC_ASSERT(says("wiped") == held.contains(Method::wipe));
        RC_ASSERT(says(", bedding sprayed") == held.contains(Method::spray_bedding));
        RC_ASSERT(says("substrate changed") == held.contains(Method::change_substrate));
        RC_ASSERT(says("floor and racks") == held.contains(Method::treat_room));
        if (says("damp")) RC_ASSERT(held.contains(Method::spray_bedding) && course.choices.keep_damp);
        for (const Refused& refused : refused_in(schedule)) {
            RC_ASSERT(!held.contains(refused.method));
            RC_ASSERT(!refused.reasons.empty());
        }
    }));
}

// 200 mg/L is 20 times the usual spray; nobody acknowledged it on this stage.
TEST(ScheduleProperties, a_strength_not_acknowledged_is_refused_with_its_remedy_and_not_told_as_sprayed) {
    const Stage stage(safety::Scene(), {enclosure("tub")}, {}, safety::today(), 200);
    const Course course{2, 7, {true, true}, Scope::everything, false};
    const Schedule schedule = fit(assign(course, stage.setting), stage.setting);
    const std::string text = words::say(tell(course, schedule.assignment.rounds, schedule.does));
    EXPECT_EQ(text.find("damp"), std::string::npos) << text;
    EXPECT_EQ(text.find("animals sprayed"), std::string::npos) << text;
    std::set<Method> methods;
    for (const Refused& refused : refused_in(schedule)) {
        methods.insert(refused.method);
        EXPECT_EQ(refused.reasons.front().remedy.id, safety::says::acknowledge_for_animal.id);
    }
    EXPECT_EQ(methods, (std::set{Method::spray_animal, Method::spray_bedding}));
}

TEST(ScheduleProperties, sprays_on_animals_keep_the_rules_written_out) {
    EXPECT_TRUE(rc::check([] {
        const Stage stage(safety::any_scene(), any_enclosures(), any_enclosures(), safety::today(),
                          any_strength());
        const Schedule schedule = fit(any_assignment(stage.setting), stage.setting);
        std::map<records::AnimalId, std::vector<units::Day>> sprayed;
        walk(schedule, [&](const Round&, const ScheduledTreatment& scheduled, const CourseSoFar&) {
            const auto& treatment = scheduled.treatment;
            if (treatment.method() != Method::spray_animal) return;
            const records::Animal& one = stage.collection().animals.at(treatment.animals().front());
            RC_ASSERT(treatment.animals().size() == 1);
            RC_ASSERT(one.weight.has_value());
            RC_ASSERT(safety::judge(stage.setting.with, one,
                                    {Method::spray_animal, treatment.strength(), treatment.day()}, {})
                          .ruling == safety::Ruling::allowed);
            sprayed[one.id].push_back(treatment.day());
        });
        for (const auto& [id, on] : sprayed) {
            const records::Animal& one = stage.collection().animals.at(id);
            // A veterinarian may direct more; nobody may direct them closer (safety rules, repeats).
            const bool directed = std::any_of(
                one.directions.begin(), one.directions.end(), [&, &last = on.back()](const auto& direction) {
                    return direction.value.method == Method::spray_animal && direction.day <= last &&
                           direction.value.treatments > 1;
                });
            RC_ASSERT(directed || on.size() <= 3);
            for (std::size_t i = 1; i < on.size(); ++i) RC_ASSERT(on[i] - on[i - 1] >= days(3));
            for (const auto& given : one.treatments) {
                if (safety::plain::is_on_animal(given.value.method))
                    RC_ASSERT(std::abs((on.front() - given.day).count()) >= 3);
            }
        }
    }));
}

// Bedding may still be sprayed; the animals of such a course get no acaricide, whatever the verdicts permit.
TEST(ScheduleProperties, a_course_that_soaks_sprays_no_animal) {
    EXPECT_TRUE(rc::check([] {
        const Stage stage(safety::any_scene(), any_enclosures(), any_enclosures(), safety::today(),
                          any_strength());
        Assignment assignment = any_assignment(stage.setting);
        assignment.choices.soak_animals = true;
        const Schedule schedule = fit(assignment, stage.setting);
        int soaks = 0;
        walk(schedule, [&](const Round&, const ScheduledTreatment& scheduled, const CourseSoFar&) {
            RC_ASSERT(!safety::plain::is_on_animal(scheduled.treatment.method()));
            soaks += scheduled.treatment.method() == Method::soak;
        });
        RC_ASSERT(schedule.burden.on_animal == 0);
        RC_ASSERT(schedule.burden.most_on_one_animal == 0);
        RC_ASSERT(schedule.burden.soaks == soaks);
    }));
}

bool is_tortoise(const std::string& taxon) {
    return safety::plain::kind_of(taxon) == safety::plain::Kind::tortoise;
}

TEST(ScheduleProperties, no_ivermectin_is_sprayed_where_a_tortoise_breathes) {
    EXPECT_TRUE(rc::check([] {
        safety::Scene scene = safety::any_scene();
        if (*rc::gen::arbitrary<bool>()) {
            scene.add_animal("agatha", "Testudo hermanni", *rc::gen::element<std::string>("tub", "far"));
        } else {
            scene.add_bystander("Testudo hermanni", *rc::gen::element<std::string>("", "room"));
        }
        const Stage stage(std::move(scene), any_enclosures(), any_enclosures());
        std::set<records::RoomId> rooms;
        bool everywhere = false;
        for (const auto& [id, one] : stage.collection().animals) {
            if (is_tortoise(one.taxon)) rooms.insert(stage.collection().enclosures.at(one.enclosure).room);
        }
        for (const auto& one : stage.collection().bystanders) {
            if (is_tortoise(one.taxon)) rooms.insert(one.room);
            everywhere = everywhere || (is_tortoise(one.taxon) && one.room.empty());
        }
        walk(fit(any_assignment(stage.setting), stage.setting),
             [&](const Round&, const ScheduledTreatment& scheduled, const CourseSoFar&) {
                 if (!safety::plain::is_spray(scheduled.treatment.method())) return;
                 RC_ASSERT(!everywhere);
                 RC_ASSERT(!rooms.contains(scheduled.treatment.room()));
             });
    }));
}

/// How good a treatment of one animal is; the planner must take the best that is permitted.
int rank(Method method) { return method == Method::spray_animal ? 3 : method == Method::soak ? 2 : 1; }

TEST(ScheduleProperties, nobody_gets_less_than_the_rules_permit) {
    EXPECT_TRUE(rc::check([] {
        const Stage stage(safety::any_scene(), any_enclosures(), any_enclosures(), safety::today(),
                          any_strength());
        const Assignment assignment = any_assignment(stage.setting);
        const Schedule schedule = fit(assignment, stage.setting);
        CourseSoFar before;
        for (const Round& round : schedule.rounds) {
            std::map<records::AnimalId, int> got;
            std::set<records::EnclosureId> bedded;
            // Who has to wait gets it on a date of its own, later in the same round.
            for (const Round& part : schedule.rounds) {
                if (round.own_date || part.planned != round.planned) continue;
                for (const ScheduledTreatment& scheduled : part.treatments) {
                    const auto& treatment = scheduled.treatment;
                    if (treatment.method() == Method::spray_bedding) bedded.insert(treatment.enclosure());
                    const bool on_animal = scheduled.key().find("/animal/") != std::string::npos;
                    if (on_animal) got[treatment.animals().front()] = rank(treatment.method());
                }
            }
            for (const auto& [id, one] : stage.collection().animals) {
                const auto& places = assignment.enclosures;
                if (round.own_date) continue;
                if (std::find(places.begin(), places.end(), one.enclosure) == places.end()) continue;
                for (const Method method : {Method::spray_animal, Method::soak, Method::wipe}) {
                    if (assignment.choices.soak_animals && method == Method::spray_animal) continue;
                    if (rank(method) > got[id]) RC_ASSERT(!plainly(stage, one, method, round.day, before));
                }
            }
            for (const auto& place : assignment.enclosures) {
                const auto inside = stage.collection().animals_in(place);
                if (round.own_date || inside.empty() || bedded.contains(place)) continue;
                RC_ASSERT(std::any_of(inside.begin(), inside.end(), [&](const records::Animal* one) {
                    return !plainly(stage, *one, Method::spray_bedding, round.day, before);
                }));
            }
            for (const ScheduledTreatment& scheduled : round.treatments) {
                for (const auto& id : scheduled.treatment.animals())
                    before[id].push_back({scheduled.treatment.method(), round.day});
            }
        }
    }));
}

TEST(ScheduleProperties, what_is_settled_is_left_out_and_no_key_comes_twice) {
    EXPECT_TRUE(rc::check([] {
        const Stage stage(safety::any_scene(), any_enclosures(), any_enclosures());
        Assignment assignment = any_assignment(stage.setting);
        std::set<std::string> keys;
        walk(fit(assignment, stage.setting),
             [&](const Round&, const ScheduledTreatment& scheduled, const CourseSoFar&) {
                 RC_ASSERT(keys.insert(scheduled.key()).second);
                 if (*rc::gen::arbitrary<bool>()) assignment.settled.insert(scheduled.key());
             });
        walk(fit(assignment, stage.setting),
             [&](const Round&, const ScheduledTreatment& scheduled, const CourseSoFar&) {
                 RC_ASSERT(!assignment.settled.contains(scheduled.key()));
             });
    }));
}

}  // namespace
}  // namespace mitefall::plan
