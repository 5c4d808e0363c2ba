#include "evidence/taxon.h"

#include <algorithm>
#include <array>

namespace mitefall::evidence {
namespace {

constexpr std::array all_groups{TaxonGroup::snake,        TaxonGroup::indigo_snake, TaxonGroup::skink,
                                TaxonGroup::other_lizard, TaxonGroup::chelonian,    TaxonGroup::crocodilian,
                                TaxonGroup::amphibian,    TaxonGroup::invertebrate, TaxonGroup::fish,
                                TaxonGroup::dog,          TaxonGroup::cat,          TaxonGroup::bird,
                                TaxonGroup::other_mammal, TaxonGroup::other};

}  // namespace

std::string_view to_text(TaxonGroup group) {
    switch (group) {
        case TaxonGroup::snake: return "snake";
        case TaxonGroup::indigo_snake: return "indigo_snake";
        case TaxonGroup::skink: return "skink";
        case TaxonGroup::other_lizard: return "other_lizard";
        case TaxonGroup::chelonian: return "chelonian";
        case TaxonGroup::crocodilian: return "crocodilian";
        case TaxonGroup::amphibian: return "amphibian";
        case TaxonGroup::invertebrate: return "invertebrate";
        case TaxonGroup::fish: return "fish";
        case TaxonGroup::dog: return "dog";
        case TaxonGroup::cat: return "cat";
        case TaxonGroup::bird: return "bird";
        case TaxonGroup::other_mammal: return "other_mammal";
        case TaxonGroup::other: return "other";
    }
    return {};
}

std::optional<TaxonGroup> parse_group(std::string_view text) {
    const auto found = std::find_if(all_groups.begin(), all_groups.end(),
                                    [&](TaxonGroup group) { return to_text(group) == text; });
    return found == all_groups.end() ? std::nullopt : std::optional(*found);
}

std::string_view describe(TaxonGroup group) {
    switch (group) {
        case TaxonGroup::snake: return "snake";
        case TaxonGroup::indigo_snake: return "indigo snake";
        case TaxonGroup::skink: return "skink";
        case TaxonGroup::other_lizard: return "lizard";
        case TaxonGroup::chelonian: return "tortoise, turtle or terrapin";
        case TaxonGroup::crocodilian: return "crocodilian";
        case TaxonGroup::amphibian: return "amphibian";
        case TaxonGroup::invertebrate: return "invertebrate";
        case TaxonGroup::fish: return "fish";
        case TaxonGroup::dog: return "dog";
        case TaxonGroup::cat: return "cat";
        case TaxonGroup::bird: return "bird";
        case TaxonGroup::other_mammal: return "mammal";
        case TaxonGroup::other: return "other animal";
    }
    return {};
}

}  // namespace mitefall::evidence
