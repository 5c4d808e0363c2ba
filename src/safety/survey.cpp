#include "safety/survey.h"

namespace mitefall::safety {
namespace {

bool is_plain_snake(const std::optional<evidence::Taxon>& taxon) {
    return taxon && taxon->group == evidence::TaxonGroup::snake;
}

/// An enclosure missing from the collection leaves the room unknown: the animal then counts for the whole
/// house.
void add_sharer(Survey& survey, const records::RoomId& room, Sharer sharer) {
    if (room.empty()) {
        survey.whole_house.push_back(std::move(sharer));
    } else {
        survey.air[room].push_back(std::move(sharer));
    }
}

records::RoomId room_of(const records::Collection& collection, const records::Animal& animal) {
    const auto found = collection.enclosures.find(animal.enclosure);
    return found == collection.enclosures.end() ? records::RoomId{} : found->second.room;
}

}  // namespace

Survey survey(const records::Collection& collection, const evidence::Taxa& taxa) {
    Survey result;
    for (const auto& [id, animal] : collection.animals) {
        const auto taxon = taxa.find(animal.taxon);
        if (!is_plain_snake(taxon)) {
            add_sharer(result, room_of(collection, animal),
                       {animal.name.empty() ? id.text() : animal.name, taxon, id});
        }
        if (!taxon && !animal.taxon.empty()) result.suggestions.emplace(id, taxa.suggest(animal.taxon));
        result.taxa.emplace(id, taxon);
        result.inside[animal.enclosure].push_back(id);
    }
    for (const records::BystanderNoted& bystander : collection.bystanders) {
        // The keeper's name for a bystander never decides what it is: a tortoise may be called Cat.
        const auto taxon = taxa.find(bystander.taxon);
        if (!is_plain_snake(taxon)) add_sharer(result, bystander.room, {bystander.name, taxon, {}});
    }
    return result;
}

std::vector<Sharer> sharers_of(const Survey& survey, const records::RoomId& room) {
    std::vector<Sharer> sharers = survey.whole_house;
    if (const auto found = survey.air.find(room); found != survey.air.end()) {
        sharers.insert(sharers.end(), found->second.begin(), found->second.end());
    }
    return sharers;
}

}  // namespace mitefall::safety
