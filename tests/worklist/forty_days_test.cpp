#include <gtest/gtest.h>

#include <map>
#include <random>

#include "diary.h"
#include "safety/permit.h"
#include "safety/plain_rules.h"
#include "words/words.h"

// Whole courses lived through day by day, with every promise of the worklist checked on every day.
namespace mitefall::worklist {
namespace {

using records::Method;

constexpr int course_days = 40;

std::string part_of(const std::string& key) { return key.substr(11, key.find('/', 11) - 11); }

/// What the keeper of this simulation has done, remembered apart from the journal.
struct Memory {
    Day first;
    Day last_round;
    bool keep_damp = false;
    std::set<EnclosureId> watched;
    std::map<EnclosureId, Day> bedded;     ///< last bedding spray
    std::map<EnclosureId, Day> fresh;      ///< last change of substrate
    std::map<EnclosureId, Day> water_out;  ///< dishes out, since when
    std::map<EnclosureId, Day> looked;     ///< last check
    std::map<AnimalId, std::vector<Day>> sprayed;

    void see(const Task& done, Day today) {
        if (done.kind == TaskKind::water_out) water_out[done.enclosure] = today;
        if (done.kind == TaskKind::water_back) water_out.erase(done.enclosure);
        if (done.kind == TaskKind::check) looked[done.enclosure] = today;
        if (done.kind != TaskKind::treat) return;
        if (done.treatment->method() == Method::spray_bedding) bedded[done.enclosure] = today;
        if (done.treatment->method() == Method::change_substrate) fresh[done.enclosure] = today;
        if (done.treatment->method() == Method::spray_animal) sprayed[done.animals.front()].push_back(today);
    }
};

Danger danger_of(const EnclosureId& tub, const Diary& diary) {
    if (tub == enclosure("m")) return Danger::sighted;
    return diary.exposed().contains(tub) ? Danger::exposed : Danger::healthy;
}

Danger danger_of(const RoomId& room, const Diary& diary) {
    Danger worst = Danger::healthy;
    for (const auto* tub : diary.collection().enclosures_in(room))
        worst = std::max(worst, danger_of(tub->id, diary));
    return worst;
}

void expect_working_order(const std::vector<Task>& tasks, const Diary& diary) {
    std::vector<std::tuple<bool, Danger, RoomId, bool, Danger, EnclosureId>> places;
    for (const Task& task : tasks) {
        if (task.kind == TaskKind::hygiene || task.kind == TaskKind::mix) continue;
        ASSERT_FALSE(task.room.empty()) << task.key;
        const bool whole_room = task.enclosure.empty();
        const Danger own = whole_room ? danger_of(task.room, diary) : danger_of(task.enclosure, diary);
        EXPECT_EQ(task.danger, own) << task.key;
        places.emplace_back(!task.overdue, danger_of(task.room, diary), task.room, whole_room, own,
                            task.enclosure);
    }
    EXPECT_TRUE(std::is_sorted(places.begin(), places.end()));
}

void expect_clean_hands(const std::vector<Task>& tasks, const Diary& diary) {
    const Task* before = nullptr;
    bool washed = false;
    bool changed = false;
    bool was_infested = false;
    for (const Task& task : tasks) {
        if (task.kind == TaskKind::mix) continue;
        if (task.kind == TaskKind::hygiene) {
            EXPECT_FALSE(washed) << "twice in a row";
            EXPECT_NE(before, nullptr) << "before any work";
            washed = true;
            changed = words::say(task.what).find("change clothes") != std::string::npos;
            continue;
        }
        const bool same_group =
            before == nullptr || (before->room == task.room && before->danger == task.danger &&
                                  (task.danger == Danger::healthy || before->enclosure == task.enclosure));
        EXPECT_EQ(washed, !same_group) << task.key;
        const bool is_infested = danger_of(task.room, diary) == Danger::sighted;
        EXPECT_EQ(changed, was_infested && !is_infested) << task.key;
        washed = changed = false;
        before = &task;
        was_infested = is_infested;
    }
    const bool changes =
        !tasks.empty() && words::say(tasks.back().what).find("change clothes") != std::string::npos;
    EXPECT_EQ(changes, was_infested);
}

void expect_unique_keys(const std::vector<Task>& tasks) {
    std::set<std::string> keys;
    for (const Task& task : tasks) EXPECT_TRUE(keys.insert(task.key).second) << task.key;
}

void expect_mix(const std::vector<Task>& tasks) {
    double open = 0;
    const Task* mix = nullptr;
    for (const Task& task : tasks) {
        if (task.kind == TaskKind::mix) {
            mix = &task;
        } else if (task.amount && task.state == TaskState::open) {
            open += units::in_millilitres(*task.amount);
            EXPECT_EQ(task.strength, units::milligrams_per_litre(10)) << task.key;
        }
    }
    if (open > 0) {
        ASSERT_NE(mix, nullptr);
        const auto first = std::find_if(tasks.begin(), tasks.end(), [](const Task& one) {
            return !one.overdue && one.kind != TaskKind::hygiene;
        });
        EXPECT_EQ(mix, &*first) << "only dishes out for too long come before it";
        EXPECT_NEAR(units::in_millilitres(*mix->amount), open * 1.15, 1e-9);  // rules.toml, spare 0.15
    } else if (mix != nullptr) {
        EXPECT_NE(mix->state, TaskState::open);
    }
}

void expect_permitted(const Task& task, const Diary& diary) {
    ASSERT_TRUE(task.treatment.has_value()) << task.key;
    const auto& treatment = *task.treatment;
    EXPECT_EQ(treatment.day(), diary.today) << task.key;
    const auto& collection = diary.collection();
    for (const AnimalId& id : treatment.animals()) {
        const auto verdict =
            safety::judge(collection, collection.animals.at(id), treatment.method(), treatment.strength(),
                          diary.today, safety::tables(), safety::taxa(), {});
        EXPECT_TRUE(safety::permits(verdict)) << task.key << " " << id.text();
    }
}

/// Whether everybody in the tub may lie on sprayed paper today, asked one by one.
bool bedding_is_permitted(const EnclosureId& tub, const Diary& diary) {
    const auto inside = diary.collection().animals_in(tub);
    return std::all_of(inside.begin(), inside.end(), [&](const records::Animal* animal) {
        return safety::permits(safety::judge(diary.collection(), *animal, Method::spray_bedding,
                                             units::milligrams_per_litre(10), diary.today, safety::tables(),
                                             safety::taxa(), {}));
    });
}

bool is_listed(const std::vector<Task>& tasks, const EnclosureId& tub, TaskKind kind) {
    return std::any_of(tasks.begin(), tasks.end(),
                       [&](const Task& task) { return task.enclosure == tub && task.kind == kind; });
}

const Task* open_bedding(const std::vector<Task>& tasks, const EnclosureId& tub) {
    for (const Task& task : tasks) {
        const bool is_bedding = task.treatment && task.treatment->method() == Method::spray_bedding;
        if (is_bedding && task.enclosure == tub) return &task;
    }
    return nullptr;
}

/// Paper or animal.
bool gets_wet(const std::vector<Task>& tasks, const EnclosureId& tub) {
    return open_bedding(tasks, tub) != nullptr ||
           std::any_of(tasks.begin(), tasks.end(), [&](const Task& task) {
               return task.enclosure == tub && task.treatment &&
                      task.treatment->method() == Method::spray_animal;
           });
}

/// Paper is wetted again only where it was sprayed, is still in, is not sprayed today and may be wet, and
/// while the dish is out for less than 3 days (rules.toml, water_out_max).
void expect_redampening(const std::vector<Task>& tasks, const Diary& diary, const Memory& memory) {
    for (const EnclosureId& tub : all_tubs()) {
        const auto bedded = memory.bedded.find(tub);
        const auto fresh = memory.fresh.find(tub);
        const bool was_sprayed = bedded != memory.bedded.end();
        const bool is_in = was_sprayed && (fresh == memory.fresh.end() || fresh->second <= bedded->second);
        const bool is_damp = is_in && bedded->second < diary.today;
        const auto out = memory.water_out.find(tub);
        const bool is_dish_out = out != memory.water_out.end() && diary.today - out->second < Days(3);
        const bool may_be = memory.keep_damp && is_damp && is_dish_out &&
                            open_bedding(tasks, tub) == nullptr && bedding_is_permitted(tub, diary);
        EXPECT_TRUE(may_be || !is_listed(tasks, tub, TaskKind::redampen)) << tub.text();
    }
}

void expect_checks(const std::vector<Task>& tasks, const Diary& diary, const Memory& memory) {
    const auto day = (diary.today - memory.first).count();
    const Day planned = memory.first + Days(day / 7 * 7);
    // unfed_adult_life, high end
    const bool is_due = planned > memory.first && planned <= memory.last_round + Days(45);
    for (const EnclosureId& tub : all_tubs()) {
        const auto looked = memory.looked.find(tub);
        const std::string key = units::format_day(planned) + "/check/" + tub.text();
        const bool is_answered = (looked != memory.looked.end() && looked->second >= planned) ||
                                 diary.collection().skipped.contains(key);
        const bool is_open = planned == diary.today || !is_answered;
        EXPECT_EQ(is_listed(tasks, tub, TaskKind::check), is_due && is_open && memory.watched.contains(tub))
            << tub.text();
    }
}

void expect_water(const std::vector<Task>& tasks, const Diary& diary, const Memory& memory) {
    for (const EnclosureId& tub : all_tubs()) {
        const auto out = memory.water_out.find(tub);
        const bool is_out = out != memory.water_out.end();
        EXPECT_EQ(diary.collection().enclosures.at(tub).water_is_out, is_out) << tub.text();
        const bool is_due = is_out && diary.today - out->second >= Days(3);  // rules.toml, water_out_max
        const bool stays_wet = gets_wet(tasks, tub) || is_listed(tasks, tub, TaskKind::redampen);
        EXPECT_FALSE(is_due && stays_wet) << tub.text();
        EXPECT_EQ(is_listed(tasks, tub, TaskKind::water_back), is_out && !stays_wet) << tub.text();
        const bool is_wanted = gets_wet(tasks, tub) && !is_out;
        EXPECT_EQ(is_listed(tasks, tub, TaskKind::water_out), is_wanted) << tub.text();
    }
}

void expect_sound_list(const std::vector<Task>& tasks, const Diary& diary) {
    expect_unique_keys(tasks);
    expect_working_order(tasks, diary);
    expect_clean_hands(tasks, diary);
    expect_mix(tasks);
    for (const Task& task : tasks) {
        if (task.kind == TaskKind::treat && task.state == TaskState::open) expect_permitted(task, diary);
        EXPECT_EQ(task.day, diary.today) << task.key;
        EXPECT_LE(task.planned, diary.today) << task.key;
    }
}

void expect_morning(const std::vector<Task>& tasks, const Diary& diary, const Memory& memory) {
    expect_sound_list(tasks, diary);
    expect_redampening(tasks, diary, memory);
    expect_checks(tasks, diary, memory);
    expect_water(tasks, diary, memory);
}

void expect_animals_spared(const Diary& diary, const Memory& memory) {
    for (const auto& [id, on] : memory.sprayed) {
        EXPECT_LE(on.size(), 3u) << id.text();  // rules.toml, max_applications
        for (std::size_t i = 1; i < on.size(); ++i)
            EXPECT_GE(on[i] - on[i - 1], Days(3)) << id.text();  // min_interval
        std::size_t recorded = 0;
        for (const auto& given : diary.collection().animals.at(id).treatments)
            recorded += given.value.method == Method::spray_animal ? 1u : 0u;
        EXPECT_EQ(recorded, on.size()) << id.text();
    }
    for (const char* const name : {"nell", "olga", "sam"}) {  // 100 g, 170 g, no weight
        EXPECT_FALSE(memory.sprayed.contains(AnimalId(name))) << name;
    }
}

struct Plan {
    int rounds = 3;
    int interval = 7;
    bool substrate = true;
    bool damp = true;
};

struct Lived {
    Diary diary;
    Memory memory;
};

Lived begin(const Plan& plan) {
    Lived lived{Diary(three_rooms(), {enclosure("r"), enclosure("k")}), {}};
    Diary& diary = lived.diary;
    diary.adopt(plan.rounds, plan.interval, all_tubs(), all_rooms(), plan.substrate, plan.damp);
    lived.memory.first = diary.today;
    lived.memory.last_round = diary.today + Days(plan.interval * (plan.rounds - 1));
    lived.memory.keep_damp = plan.damp;
    lived.memory.watched = {all_tubs().begin(), all_tubs().end()};
    return lived;
}

/// Pia sheds on the third day; her keeper writes it down.
void live_a_morning(Lived& lived) {
    if (lived.diary.today == lived.memory.first + Days(3))
        lived.diary.note(records::ShedSeen{AnimalId("pia"), records::ShedState::shed});
}

void expect_settled(const std::vector<Task>& morning, const Diary& diary, const std::set<std::string>& left) {
    const auto evening = diary.list().tasks;
    for (const Task& task : morning) {
        if (task.kind == TaskKind::hygiene || left.contains(task.key)) continue;
        const auto found =
            std::find_if(evening.begin(), evening.end(), [&](const Task& t) { return t.key == task.key; });
        ASSERT_NE(found, evening.end()) << task.key;
        EXPECT_NE(found->state, TaskState::open) << task.key;
        EXPECT_EQ(found->kind, task.kind) << task.key;
        EXPECT_EQ(found->planned, task.planned) << task.key;
        EXPECT_EQ(found->room, task.room) << task.key;
        EXPECT_EQ(found->danger, task.danger) << task.key;
        if (part_of(task.key) != "animal") {
            EXPECT_EQ(words::say(found->what).substr(0, 20), words::say(task.what).substr(0, 20));
        }
    }
}

void live_a_diligent_day(Lived& lived) {
    Diary& diary = lived.diary;
    live_a_morning(lived);
    const Worklist morning = diary.list();
    expect_morning(morning.tasks, diary, lived.memory);
    for (const auto& [tub, since] : lived.memory.water_out)
        EXPECT_LE(diary.today - since, Days(3)) << tub.text();
    for (const Task& task : morning.tasks) {
        if (task.kind == TaskKind::hygiene) continue;
        EXPECT_EQ(task.state, TaskState::open) << task.key;
        diary.tick(task);
        lived.memory.see(task, diary.today);
    }
    for (const auto& [tub, since] : lived.memory.water_out)
        EXPECT_LT(diary.today - since, Days(3)) << tub.text();
    const auto evening = diary.list().tasks;
    for (const Task& task : evening) {
        EXPECT_TRUE(task.kind == TaskKind::hygiene || task.state != TaskState::open) << task.key;
    }
    EXPECT_EQ(keys_of({diary.today, evening, {}, {}, {}}, true), keys_of(morning, true));
    expect_settled(morning.tasks, diary, {});
    expect_sound_list(evening, diary);
}

void live_diligently(const Plan& plan) {
    SCOPED_TRACE(testing::Message() << plan.rounds << " rounds, " << plan.interval << " days apart, damp "
                                    << plan.damp);
    Lived lived = begin(plan);
    for (int day = 0; day < course_days; ++day) {
        SCOPED_TRACE(testing::Message() << "day " << day);
        live_a_diligent_day(lived);
        lived.diary.sleep();
    }
    expect_animals_spared(lived.diary, lived.memory);
    EXPECT_EQ(lived.memory.sprayed.at(AnimalId("mia")).size(),
              static_cast<std::size_t>(std::min(plan.rounds, 3)));
    EXPECT_TRUE(lived.memory.sprayed.contains(AnimalId("pia"))) << "she may once she has shed";
}

TEST(FortyDays, of_three_rounds_a_week_apart) { live_diligently({3, 7, true, true}); }
TEST(FortyDays, of_five_rounds_a_week_apart_on_dry_paper) { live_diligently({5, 7, false, false}); }
TEST(FortyDays, of_three_rounds_three_days_apart) { live_diligently({3, 3, true, true}); }
TEST(FortyDays, of_two_rounds_a_fortnight_apart) { live_diligently({2, 14, false, true}); }
TEST(FortyDays, of_one_round) { live_diligently({1, 3, true, false}); }

/// Ticks most tasks in any order, skips some, forgets some; after each the list is asked for again, as a
/// keeper does.
void live_a_careless_day(Lived& lived, std::mt19937& random) {
    Diary& diary = lived.diary;
    live_a_morning(lived);
    const Worklist morning = diary.list();
    expect_morning(morning.tasks, diary, lived.memory);
    std::vector<std::string> keys = keys_of(morning);
    std::shuffle(keys.begin(), keys.end(), random);
    std::set<std::string> left;
    for (const std::string& key : keys) {
        const auto dice = random() % 10;
        if (dice >= 8 || !diary.lists(key)) {
            left.insert(key);  // forgotten, or no longer asked for
            continue;
        }
        const Task task = diary.task(key);
        ASSERT_EQ(task.state, TaskState::open) << key;
        if (dice == 7) {
            diary.skip(key);
            continue;
        }
        diary.tick(task);
        lived.memory.see(task, diary.today);
    }
    expect_settled(morning.tasks, diary, left);
    expect_sound_list(diary.list().tasks, diary);
}

class CarelessKeeper : public testing::TestWithParam<unsigned> {};

TEST_P(CarelessKeeper, never_makes_the_list_break_a_promise) {
    std::mt19937 random(GetParam());
    const Plan plan{static_cast<int>(1 + random() % 5), static_cast<int>(3 + random() % 8), random() % 2 == 0,
                    random() % 2 == 0};
    Lived lived = begin(plan);
    for (int day = 0; day < course_days; ++day) {
        SCOPED_TRACE(testing::Message() << "day " << day);
        live_a_careless_day(lived, random);
        lived.diary.sleep();
    }
    expect_animals_spared(lived.diary, lived.memory);
}

INSTANTIATE_TEST_SUITE_P(Seeds, CarelessKeeper, testing::Range(1u, 9u));

// With everything ticked the list is empty until the day it names, and not on that day.
TEST(FortyDays, the_next_day_named_is_the_next_with_work) {
    for (const bool damp : {false, true}) {
        Diary diary(one_tub());
        diary.adopt(3, 9, {enclosure("a")}, {RoomId("snakes")}, true, damp);
        std::optional<Day> promised = diary.today;
        const Day end =
            diary.today + Days(18 + 45);  // last round and the longest unfed life (population.toml)
        while (promised) {
            for (; diary.today < *promised; diary.sleep()) EXPECT_TRUE(keys_of(diary.list()).empty());
            EXPECT_FALSE(keys_of(diary.list()).empty()) << units::format_day(diary.today);
            diary.tick_all();
            promised = diary.list().next_day;
            diary.sleep();
        }
        EXPECT_GT(diary.today, end - Days(7));
        EXPECT_LE(diary.today, end + Days(1));
    }
}

}  // namespace
}  // namespace mitefall::worklist
