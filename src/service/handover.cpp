#include <algorithm>

#include "service/asked.h"
#include "service/clearance.h"
#include "service/departure.h"
#include "service/worklist.h"
#include "units/whole_days.h"

namespace mitefall::service {
namespace {

using records::Animal;

Error nobody_to_hand_over(const records::AnimalId& animal) {
    return {ErrorKind::not_found, "no such animal", animal.text(), {}, "look it up among the animals", {}};
}

void count(const records::Entry& entry, clearance::Handover& note) {
    if (const auto* const check = std::get_if<records::Checked>(&entry.fact)) {
        note.last_check = entry.day;
        if (check->count == records::SeenCount::none)
            ++note.clean_checks;
        else
            note.last_mites = entry.day;
    }
    if (std::holds_alternative<records::Sighted>(entry.fact)) note.last_mites = entry.day;
}

/// An animal in quarantine by what it brought, any other by where it lives. None: mites were never seen.
Result<std::optional<clearance::Sureness>> sure_of(const Situation& situation, const Animal& animal,
                                                   const ClearanceOptions& options) {
    if (animal.quarantine) {
        const auto release = release_of(situation, animal.id, options);
        if (release) return std::optional(release->release.points.front().none);
    }
    const auto clear = clearance_of(situation, options);
    if (!clear && clear.error().kind == ErrorKind::not_found) return std::optional<clearance::Sureness>();
    if (!clear) return fail(clear.error());
    for (const clearance::SureOf& place : clear->places) {
        const auto& ids = place.enclosures;
        if (std::find(ids.begin(), ids.end(), animal.enclosure) != ids.end())
            return std::optional(place.sure);
    }
    return std::optional<clearance::Sureness>();
}

worklist::Danger danger_in(const worklist::Overview& overview, const records::EnclosureId& id) {
    for (const auto& room : overview.rooms) {
        for (const auto& enclosure : room.enclosures) {
            if (enclosure.enclosure == id) return enclosure.danger;
        }
    }
    return worklist::Danger::healthy;
}

std::vector<clearance::Told> watch_for(const evidence::Tables& tables) {
    const auto practice = evidence::Tag::common_practice;
    const auto apart = tables.time("quarantine");
    return {{asked::can_be_on_it_unseen(), practice},
            {asked::keep_it_alone(static_cast<double>(units::at_least_days(apart.low).count())), apart.tag,
             std::string(apart.source)},
            {asked::look_every_week(), practice},
            {asked::wash_after_every_visit(), practice},
            {asked::burn_the_bag(), practice},
            {asked::ask_before_giving_more(), evidence::Tag::assumption}};
}

}  // namespace

Result<clearance::Handover> handover_of(const Situation& situation, const records::AnimalId& id,
                                        const ClearanceOptions& options) {
    const records::Collection& collection = situation.collection();
    const auto found = collection.animals.find(id);
    if (found == collection.animals.end()) return fail(nobody_to_hand_over(id));
    const Animal& animal = found->second;
    auto met = records::given_to(id, situation.journal(), collection, situation.today() - animal.arrived);
    if (!met) return fail(met.error());
    clearance::Handover note{std::move(*met), animal.arrived};
    for (const records::Entry& entry : note.met.entries) count(entry, note);
    const auto sure = sure_of(situation, animal, options);
    if (!sure) return fail(sure.error());
    note.sure = *sure;
    const auto overview = overview_of(situation);
    if (!overview) return fail(overview.error());
    note.risk = risk_of_leaving(animal, animal.enclosure, danger_in(*overview, animal.enclosure), collection,
                                situation.knowledge().tables);
    note.watch_for = watch_for(situation.knowledge().tables);
    return note;
}

}  // namespace mitefall::service
