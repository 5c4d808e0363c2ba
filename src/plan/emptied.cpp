#include "plan/emptied.h"

#include <algorithm>

namespace mitefall::plan {
namespace {

records::Collection with_everybody_moved(records::Collection collection, const records::EmptiedWood& wood) {
    for (auto& [id, animal] : collection.animals) {
        if (animal.enclosure != wood.enclosure) continue;
        if (!animal.stays.empty() && !animal.stays.back().until) animal.stays.back().until = collection.day;
        animal.enclosure = wood.tub;
        animal.stays.push_back({wood.tub, collection.day, 0});
    }
    return collection;
}

safety::Survey with_everybody_moved(safety::Survey survey, const records::EmptiedWood& wood) {
    auto moved = survey.inside.extract(wood.enclosure);
    if (moved.empty()) return survey;
    moved.key() = wood.tub;
    survey.inside.insert(std::move(moved));
    return survey;
}

}  // namespace

Emptied::Emptied(const safety::Case& with, const records::EmptiedWood& wood,
                 const std::optional<std::set<records::EnclosureId>>& only)
    : collection_(with_everybody_moved(with.collection, wood)),
      with_{collection_, with.tables, with_everybody_moved(with.survey, wood)},
      permits_(only ? std::make_unique<PermitBook>(with_, *only) : std::make_unique<PermitBook>(with_)) {}

bool can_be_emptied(const records::EmptiedWood& wood, const safety::Case& with) {
    const auto& enclosures = with.collection.enclosures;
    return with.survey.inside.contains(wood.enclosure) && !with.survey.inside.contains(wood.tub) &&
           enclosures.contains(wood.enclosure) && enclosures.contains(wood.tub);
}

const records::EmptiedWood* wood_of(const std::vector<records::EmptiedWood>& emptied,
                                    const records::EnclosureId& enclosure) {
    const auto found = std::find_if(emptied.begin(), emptied.end(), [&](const records::EmptiedWood& wood) {
        return wood.enclosure == enclosure || wood.tub == enclosure;
    });
    return found == emptied.end() ? nullptr : &*found;
}

bool is_tub_for_wood(const std::vector<records::EmptiedWood>& emptied,
                     const records::EnclosureId& enclosure) {
    const records::EmptiedWood* const wood = wood_of(emptied, enclosure);
    return wood != nullptr && wood->tub == enclosure;
}

}  // namespace mitefall::plan
