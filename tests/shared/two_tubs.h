#pragma once

#include "records/journal.h"
#include "service/keeper.h"

// Two tubs in one room, a snake in each, mites seen in one, and a plan adopted that treats both this very
// day.
namespace mitefall::service {

inline const units::Day first_round = records::day(3, 1);

inline Now at_second(int second, units::Day today = first_round) {
    return {today, units::format_day(today) + "T20:00:" + std::to_string(100 + second).substr(1) + "Z"};
}

inline void must(const base::Result<std::vector<records::FactId>>& written) {
    if (!written) throw std::runtime_error(written.error().message());
}

inline Keeper make_two_tubs(const std::string& path, const Knowledge& knowledge) {
    using records::AnimalId;
    using records::EnclosureId;
    Keeper keeper = Keeper::create(path, knowledge).value();
    for (const records::Entry& entry : records::small_collection().entries)
        must(keeper.record({entry.fact}, entry.day, at_second(0)));
    const records::PlanAdopted plan{{first_round},
                                    {EnclosureId("a"), EnclosureId("b")},
                                    {},
                                    {true, false},
                                    units::milligrams_per_litre(10)};
    must(keeper.record(
        {records::Weighed{AnimalId("pim"), units::grams(900)},
         records::Weighed{AnimalId("juno"), units::grams(1100)},
         records::Sighted{EnclosureId("a"), records::SeenCount::few, records::SeenWhere::on_animal}, plan},
        first_round, at_second(0)));
    return keeper;
}

}  // namespace mitefall::service
