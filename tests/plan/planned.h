#pragma once

#include <utility>

#include "plan/search.h"
#include "records/journal.h"
#include "safety/scene.h"

// Records, and all that a plan made of them refers to.
namespace mitefall::plan {

inline const units::Day planned_on = records::day(3, 10);

/// The second enclosure, "b", is exposed.
struct Planned {
    Planned(records::Journal of, std::size_t draws_made) : journal(std::move(of)), draws(draws_made) {}
    Planned(const Planned&) = delete;
    Planned& operator=(const Planned&) = delete;

    records::Journal journal;
    std::size_t draws;
    records::Collection collection = records::collection_on(journal.entries, planned_on);
    safety::Case with = safety::prepare(collection, safety::tables(), safety::taxa());
    scenario::RecordedCase known =
        scenario::case_from_records(journal.entries, planned_on, units::days_long(60),
                                    mites::fixed_parameters(safety::tables()))
            .value();
    Setting setting{with, known, {records::EnclosureId("b")}, planned_on, units::milligrams_per_litre(10)};
    mites::Ensemble ensemble = mites::draw_parameters(safety::tables(), draws, 1);

    [[nodiscard]] belief::Belief belief() const {
        return belief::believe_records(known, ensemble, belief::introduction_prior(safety::tables()), 1);
    }
    [[nodiscard]] PlanChoice choose() const { return choose_plan(setting, ensemble, belief(), {}).value(); }
    [[nodiscard]] Schedule fitted(const Course& course) const {
        return fit(assign(course, setting), setting);
    }
};

}  // namespace mitefall::plan
