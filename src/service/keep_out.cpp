#include <algorithm>
#include <tuple>

#include "service/clearance.h"
#include "service/stand.h"

namespace mitefall::service {
namespace {

using clearance::Entrance;
using clearance::Routine;
using records::CheckMethod;
using units::Days;

/// So many kinds of places, those with most enclosures first: each costs as much as any other.
constexpr std::size_t most_entrances = 3;

/// Of eight draws each: enough for two digits.
constexpr std::size_t blocks = 4;

const std::vector<Routine> routines{{CheckMethod::paper_trap, 30}, {CheckMethod::paper_trap, 14},
                                    {CheckMethod::paper_trap, 7},  {CheckMethod::look_over, 30},
                                    {CheckMethod::look_over, 14},  {CheckMethod::look_over, 7}};

/// What makes two places alike for a mite that comes in.
auto kind_of(const records::Enclosure& enclosure, std::size_t living) {
    const records::Climate& climate = enclosure.climate;
    return std::tuple(enclosure.room, enclosure.material, units::in_celsius(climate.day),
                      units::in_celsius(climate.night), units::in_percent(climate.humidity), living);
}

std::vector<Entrance> entrances_of(const records::Collection& collection, const scenario::RecordedCase& known,
                                   int& enclosures) {
    using Kind = decltype(kind_of(records::Enclosure{}, 0));
    std::map<Kind, Entrance> kinds;
    for (const auto& [id, enclosure] : collection.enclosures) {
        const std::size_t living = collection.animals_in(id).size();
        if (living == 0) continue;
        ++enclosures;
        const auto [kind, is_new] = kinds.try_emplace(kind_of(enclosure, living));
        if (is_new) kind->second = {known.enclosures.at(id), 0};
        kind->second.weight += 1;
    }
    std::vector<Entrance> entrances;
    for (const auto& [kind, entrance] : kinds) entrances.push_back(entrance);
    std::stable_sort(entrances.begin(), entrances.end(),
                     [](const Entrance& a, const Entrance& b) { return a.weight > b.weight; });
    if (entrances.size() > most_entrances) entrances.resize(most_entrances);
    return entrances;
}

/// Each entrance in a room of its own, and nothing else of the collection: what walks on from there is not
/// looked for.
scenario::Scenario alone(const scenario::Scenario& whole, std::vector<Entrance>& entrances) {
    scenario::Scenario small;
    for (Entrance& entrance : entrances) {
        scenario::Place place = whole.places[entrance.place];
        scenario::Place room = whole.places[place.room];
        room.adjoining.clear();
        place.room = small.places.size();
        small.places.push_back(std::move(room));
        entrance.place = small.places.size();
        small.places.push_back(std::move(place));
    }
    return small;
}

Error no_animals() {
    return {ErrorKind::not_found, "there is no animal yet", {}, {}, "record animals and where they live", {}};
}

}  // namespace

Result<clearance::KeepOutAnswer> keep_out_of(const Situation& situation, const ClearanceOptions& options) {
    const evidence::Tables& tables = situation.knowledge().tables;
    const units::Day today = situation.today();
    const auto known = scenario::recorded_since(
        {situation.journal(), situation.collection(), situation.collection_then(today - Days(1))}, today,
        mites::fixed_parameters(tables));
    clearance::KeepOutAnswer answer;
    answer.today = today;
    answer.habits = clearance::habits(tables);
    if (const auto& routine = situation.collection().trap_routine)
        answer.trap_routine = routine->value.every_days;
    const auto draws = mites::draw_parameters(tables, options.draws, options.seed);
    clearance::NoticeRequest request;
    request.ensemble = &draws;
    request.blocks = std::min(blocks, draws.draws.size() / 8);
    request.within = answer.within_days;
    request.entrances = entrances_of(situation.collection(), known, answer.enclosures);
    request.routines = routines;
    request.progress = options.progress;
    if (request.entrances.empty()) return fail(no_animals());
    const scenario::Scenario places = alone(known.scenario, request.entrances);
    request.scenario = &places;
    for (const Entrance& entrance : request.entrances)
        answer.enclosures_asked += static_cast<int>(entrance.weight);
    auto noticed = clearance::notice(request);
    if (!noticed) return fail(cancelled());
    answer.routines = std::move(*noticed);
    return answer;
}

}  // namespace mitefall::service
