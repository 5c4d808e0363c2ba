#pragma once

#include <algorithm>
#include <memory>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include "records/journal.h"
#include "safety/scene.h"
#include "worklist/worklist.h"

// A course followed day by day: make the list, tick, write into the journal, fold, make the list again.
namespace mitefall::worklist {

using records::AnimalId;
using records::EnclosureId;
using records::RoomId;
using units::Day;
using units::Days;

inline EnclosureId enclosure(const std::string& name) { return EnclosureId(name); }

class Diary {
  public:
    explicit Diary(records::Journal written, std::set<EnclosureId> exposed = {})
        : entries_(std::move(written.entries)), exposed_(std::move(exposed)) {}

    Day today = records::day(3, 10);

    /// Written on today's page. Throws where a keeper would be told no.
    void note(records::Fact fact) {
        const records::Entry entry{static_cast<records::FactId>(entries_.size()) + 1, today,
                                   "2026-03-10T08:00:00Z", std::move(fact), std::nullopt};
        if (const auto good = records::check_fact(entries_, entry, today); !good)
            throw std::runtime_error(good.error().message());
        entries_.push_back(entry);
        folded_.reset();
    }

    /// A plan for these enclosures from today on, at 10 mg/L.
    void adopt(int rounds, int interval, std::vector<EnclosureId> enclosures, std::vector<RoomId> rooms,
               bool change_substrate, bool keep_damp) {
        records::PlanAdopted plan{{},
                                  std::move(enclosures),
                                  std::move(rooms),
                                  {change_substrate, keep_damp},
                                  units::milligrams_per_litre(10)};
        for (int i = 0; i < rounds; ++i) plan.rounds.push_back(today + Days(interval * i));
        note(plan);
    }

    [[nodiscard]] const records::Collection& collection() const {
        if (!folded_ || folded_->day != today)
            folded_ = std::make_unique<records::Collection>(records::collection_on(entries_, today));
        return *folded_;
    }

    [[nodiscard]] Worklist list() const {
        const safety::Case with = safety::prepare(collection(), safety::tables(), safety::taxa());
        const scenario::RecordedCase nothing;
        return make_worklist({with, nothing, exposed_, today, units::milligrams_per_litre(10)});
    }

    [[nodiscard]] Late late() const {
        const safety::Case with = safety::prepare(collection(), safety::tables(), safety::taxa());
        const scenario::RecordedCase nothing;
        std::vector<std::unique_ptr<records::Collection>> days;
        std::vector<std::unique_ptr<safety::Case>> cases;
        std::map<Day, const safety::Case*> then;
        for (const Day day : days_in_question(collection())) {
            days.push_back(std::make_unique<records::Collection>(records::collection_on(entries_, day)));
            cases.push_back(std::make_unique<safety::Case>(
                safety::prepare(*days.back(), safety::tables(), safety::taxa())));
            then[day] = cases.back().get();
        }
        const plan::Setting setting{with, nothing, exposed_, today, units::milligrams_per_litre(10)};
        return late_on(setting, make_worklist(setting), then);
    }

    /// Puts the course to the days on which its late round is made up.
    void catch_up(CatchUp how) {
        const Redated course = late().by(how).value();
        records::PlanAdopted plan = collection().plan->value;
        plan.rounds = course.rounds;
        plan.moved = course.moved;
        plan.continues = true;
        note(plan);
    }

    [[nodiscard]] Task task(const std::string& key) const {
        for (Task& one : list().tasks) {
            if (one.key == key) return std::move(one);
        }
        throw std::runtime_error("no task " + key);
    }

    [[nodiscard]] bool lists(const std::string& key) const {
        const auto tasks = list().tasks;
        return std::any_of(tasks.begin(), tasks.end(), [&](const Task& one) { return one.key == key; });
    }

    void tick(const Task& done) {
        const auto answer = done.kind == TaskKind::check ? std::optional(CheckAnswer{}) : std::nullopt;
        for (records::Fact& fact : facts_of(done, answer)) note(std::move(fact));
        note(records::TaskDone{done.key});
    }
    void tick(const std::string& key) { tick(task(key)); }
    void skip(const std::string& key) { note(records::TaskSkipped{key, "no time"}); }

    void tick_all() {
        for (const Task& one : list().tasks) {
            if (one.kind != TaskKind::hygiene && one.state == TaskState::open) tick(one);
        }
    }

    void sleep(int nights = 1) { today += Days(nights); }

    [[nodiscard]] const std::set<EnclosureId>& exposed() const { return exposed_; }

  private:
    std::vector<records::Entry> entries_;
    std::set<EnclosureId> exposed_;
    mutable std::unique_ptr<records::Collection> folded_;
};

inline void add_snake(records::Journal& journal, const std::string& name, const std::string& home,
                      double grams) {
    journal.add(records::day(1, 1), records::snake(name.c_str(), home.c_str()));
    if (grams > 0) journal.add(records::day(3, 1), records::Weighed{AnimalId(name), units::grams(grams)});
}

/// One room, one tub, one sound snake, mites seen on 10 March.
inline records::Journal one_tub() {
    records::Journal journal;
    journal.add(records::day(1, 1), records::room("snakes"));
    journal.add(records::day(1, 1), records::tub("a"));
    add_snake(journal, "anna", "a", 500);
    journal.add(records::day(3, 10),
                records::Sighted{enclosure("a"), records::SeenCount::few, records::SeenWhere::on_animal});
    return journal;
}

/// Three rooms. Mites in tub "m" of "middle", which is neither the first nor the last by name; "far" has an
/// exposed tub. In "middle" live: a sound snake in "m", two in "k", one too light for any spray in "n", one
/// for bedding only in "o", one about to shed in "p"; "q" is empty.
inline records::Journal three_rooms() {
    records::Journal journal;
    for (const char* const name : {"attic", "far", "middle"})
        journal.add(records::day(1, 1), records::room(name));
    for (const char* const name : {"k", "m", "n", "o", "p", "q"})
        journal.add(records::day(1, 1), records::tub(name, "middle"));
    for (const char* const name : {"r", "s"}) journal.add(records::day(1, 1), records::tub(name, "far"));
    journal.add(records::day(1, 1), records::tub("t", "attic"));
    add_snake(journal, "kim", "k", 800);
    add_snake(journal, "ken", "k", 600);
    add_snake(journal, "mia", "m", 1500);
    add_snake(journal, "nell", "n", 100);
    add_snake(journal, "olga", "o", 170);
    add_snake(journal, "pia", "p", 900);
    add_snake(journal, "rob", "r", 900);
    add_snake(journal, "sam", "s", 0);  // no weight on file
    add_snake(journal, "tom", "t", 900);
    journal.add(records::day(3, 9), records::ShedSeen{AnimalId("pia"), records::ShedState::cloudy});
    journal.add(records::day(3, 10),
                records::Sighted{enclosure("m"), records::SeenCount::few, records::SeenWhere::on_animal});
    return journal;
}

inline const std::vector<EnclosureId>& all_tubs() {
    static const std::vector<EnclosureId> all{enclosure("k"), enclosure("m"), enclosure("n"),
                                              enclosure("o"), enclosure("p"), enclosure("q"),
                                              enclosure("r"), enclosure("s"), enclosure("t")};
    return all;
}
inline const std::vector<RoomId>& all_rooms() {
    static const std::vector<RoomId> all{RoomId("attic"), RoomId("far"), RoomId("middle")};
    return all;
}

inline std::vector<std::string> keys_of(const Worklist& list, bool with_hygiene = false) {
    std::vector<std::string> keys;
    for (const Task& task : list.tasks) {
        if (with_hygiene || task.kind != TaskKind::hygiene) keys.push_back(task.key);
    }
    return keys;
}

}  // namespace mitefall::worklist
