#pragma once

#include <stdexcept>

#include "plan/search.h"
#include "records/collection.h"
#include "safety/check.h"
#include "scenario/history.h"
#include "shared/tables.h"

// A small collection with a sighting, and the plan for it.
namespace mitefall::formats {

using fixtures::tables;

inline const mites::Ensemble& ensemble() {
    static const mites::Ensemble drawn = mites::draw_parameters(tables(), branching::lane_count, 5);
    return drawn;
}

inline units::Day day(const char* text) { return units::parse_day(text).value(); }
inline const units::Day today = day("2026-03-10");

inline const records::Climate warm{units::celsius(29), units::celsius(25),
                                   units::relative_humidity_percent(60)};

inline std::vector<records::Entry> small_journal() {
    using namespace records;
    std::vector<Entry> journal;
    const auto add = [&](const char* when, Fact fact) {
        const Entry entry{
            static_cast<FactId>(journal.size()) + 1, day(when), "2026-03-10T20:00:00Z", std::move(fact), {}};
        if (const auto good = check_fact(journal, entry, today); !good)
            throw std::runtime_error(good.error().message());
        journal.push_back(entry);
    };
    const auto tub = [](const char* id, const char* room) {
        return EnclosureAdded{EnclosureId(id),
                              id,
                              RoomId(room),
                              Material::sealed,
                              Substrate::paper,
                              warm,
                              units::square_centimetres(4000)};
    };
    const auto snake = [](const char* id, const char* in) {
        return AnimalArrived{AnimalId(id), id, "Python regius", "hatched here", EnclosureId(in), false};
    };
    add("2026-01-01", RoomAdded{RoomId("snakes"), "Snake room", warm, {}, units::square_metres(12)});
    add("2026-01-01", RoomAdded{RoomId("hall"), "Hall", warm, {RoomId("snakes")}, units::square_metres(6)});
    add("2026-01-01", tub("a", "snakes"));
    add("2026-01-01", tub("b", "snakes"));
    add("2026-01-01", tub("c", "hall"));
    add("2026-01-02", snake("pim", "a"));
    add("2026-01-02", snake("juno", "b"));
    add("2026-01-02", snake("nox", "c"));
    add("2026-03-01", Weighed{AnimalId("pim"), units::grams(900)});
    add("2026-03-01", Weighed{AnimalId("juno"), units::grams(150)});
    add("2026-03-01", ShedSeen{AnimalId("juno"), ShedState::cloudy});
    add("2026-03-02", ConditionNoted{AnimalId("nox"), Condition::thin, true, "", "lost weight"});
    add("2026-03-03", Handled{{AnimalId("pim"), AnimalId("nox")}, true});
    add("2026-03-04", VetDirection{AnimalId("nox"), Method::oral_afoxolaner, "Dr. A", "as agreed"});
    add("2026-03-05", BystanderNoted{"cat", "cat", {}});
    add("2026-03-06", Treated{EnclosureId("c"), {AnimalId("nox")}, Method::soak, {}});
    add("2026-03-10", Sighted{EnclosureId("a"), SeenCount::few, SeenWhere::on_animal});
    return journal;
}

/// Everything a plan is made for, kept alive together. Not to be copied: it refers to itself.
struct Scene {
    std::vector<records::Entry> journal = small_journal();
    records::Collection collection = records::collection_on(journal, today);
    safety::Case with = safety::prepare(collection, tables(), taxa);
    scenario::RecordedCase known =
        scenario::case_from_records(journal, today, units::days_long(60), ensemble().fixed).value();
    plan::Setting setting{with, known, {records::EnclosureId("c")}, today, units::milligrams_per_litre(10)};
    plan::Goal goal{0.9, 60, plan::Prefer::burden, {}};
    belief::Belief belief =
        belief::believe_records(known, ensemble(), belief::introduction_prior(tables()), 1);
    plan::PlanChoice choice = plan::choose_plan(setting, ensemble(), belief, goal).value();

    static inline const evidence::Taxa& taxa = fixtures::taxa();
    Scene() = default;
    Scene(const Scene&) = delete;
    Scene& operator=(const Scene&) = delete;
};

inline const Scene& scene() {
    static const Scene made;
    return made;
}

}  // namespace mitefall::formats
