#include "worklist/supplies.h"

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "plan/emptied.h"

namespace mitefall::worklist {
namespace {

using records::Method;

struct Counts {
    std::map<SupplyKind, int> pieces;
    units::Area paper;
    int tubs_for_wood = 0;  ///< each for the whole course
};

void count_one(const safety::PermittedTreatment& treatment, const plan::Setting& setting, Counts& counts,
               bool is_for_wood, int& tubs) {
    const records::MethodRow& row = records::row_of(treatment.method());
    if (row.paper == records::Paper::renewed) {
        counts.paper += setting.with.collection.enclosures.at(treatment.enclosure()).floor;
        ++counts.pieces[SupplyKind::paper];
        ++counts.pieces[SupplyKind::bags];
    }
    if (row.method == Method::fresh_tub && is_for_wood)
        ++counts.tubs_for_wood;
    else if (row.method == Method::fresh_tub)
        ++tubs;
    if (row.method == Method::soak) counts.pieces[SupplyKind::soak_tub] = 1;
    if (row.method == Method::wipe) ++counts.pieces[SupplyKind::cloths];
    if (row.method == Method::clear_head) ++counts.pieces[SupplyKind::cotton_buds];
    if (!row.is_spray) return;
    counts.pieces[SupplyKind::spray_bottle] = 1;
    counts.pieces[SupplyKind::syringe] = 1;
}

void count_round(const plan::Round& round, const plan::Setting& setting,
                 const std::vector<records::EmptiedWood>& wood, Counts& counts) {
    std::set<std::string> places;
    int tubs = 0;
    for (const plan::ScheduledTreatment& scheduled : round.treatments) {
        const auto& treatment = scheduled.treatment;
        const bool is_room = records::row_of(treatment.method()).target == records::Target::room;
        places.insert(is_room ? "room " + treatment.room().text() : treatment.enclosure().text());
        count_one(treatment, setting, counts, plan::is_tub_for_wood(wood, treatment.enclosure()), tubs);
    }
    counts.pieces[SupplyKind::gloves] += static_cast<int>(places.size());
    int& most = counts.pieces[SupplyKind::clean_tubs];
    most = std::max(most, tubs);
}

}  // namespace

std::vector<Supply> supplies_for(const plan::Schedule& schedule, const plan::Setting& setting) {
    Counts counts;
    for (const plan::Round& round : schedule.rounds)
        count_round(round, setting, schedule.assignment.choices.emptied_wood, counts);
    counts.pieces[SupplyKind::clean_tubs] += counts.tubs_for_wood;
    std::vector<Supply> supplies;
    for (const auto& [what, count] : counts.pieces) {
        if (count > 0)
            supplies.push_back({what, count, what == SupplyKind::paper ? counts.paper : units::Area{}});
    }
    return supplies;
}

}  // namespace mitefall::worklist
