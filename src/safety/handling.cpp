#include "safety/handling.h"

#include <fmt/format.h>

#include <algorithm>

#include "safety/gates.h"

namespace mitefall::safety {
namespace {

using Animals = std::vector<records::AnimalId>;

template <class Test>
bool any_taxon(const Case& with, const Animals& animals, Test test) {
    return std::any_of(animals.begin(), animals.end(), [&](const records::AnimalId& id) {
        const auto found = with.survey.taxa.find(id);
        return found != with.survey.taxa.end() && test(found->second);
    });
}

using MaybeTaxon = std::optional<evidence::Taxon>;

const Animals& inside(const Case& with, const records::EnclosureId& enclosure) {
    static const Animals nobody;
    const auto found = with.survey.inside.find(enclosure);
    return found == with.survey.inside.end() ? nobody : found->second;
}

}  // namespace

bool may_be_venomous(const MaybeTaxon& taxon) { return !taxon || taxon->venomous || taxon->unidentified; }

bool is_any_venomous(const Case& with, const Animals& animals) {
    return any_taxon(with, animals, may_be_venomous);
}

bool is_venomous_inside(const Case& with, const records::EnclosureId& enclosure) {
    return is_any_venomous(with, inside(with, enclosure));
}

void warn_of_handling(const Case& with, const Animals& animals, std::vector<Caution>& cautions) {
    if (any_taxon(with, animals, [](const MaybeTaxon& taxon) { return taxon && taxon->venomous; })) {
        cautions.push_back(
            caution("Venomous: trained handler, second person present, animal locked in a shift box first",
                    practice()));
    } else if (is_any_venomous(with, animals)) {
        cautions.push_back(
            caution("Its kind is not named and may be venomous: nothing by hand until it is named, or a "
                    "veterinarian directs it",
                    our_assumption()));
    } else if (any_taxon(with, animals, [](const MaybeTaxon& taxon) { return taxon->very_long; })) {
        cautions.push_back(
            caution("Adults of its kind are often longer than 2.5 m: two people, never alone", practice()));
    }
}

std::vector<Caution> handling_cautions(const Case& with, const records::EnclosureId& enclosure) {
    std::vector<Caution> cautions;
    warn_of_handling(with, inside(with, enclosure), cautions);
    return cautions;
}

}  // namespace mitefall::safety
