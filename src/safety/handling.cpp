#include "safety/handling.h"

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

bool may_be_venomous(const MaybeTaxon& taxon) { return !taxon || taxon->venomous || taxon->perhaps_venomous; }

bool is_any_venomous(const Case& with, const Animals& animals) {
    return any_taxon(with, animals, may_be_venomous);
}

bool is_venomous_inside(const Case& with, const records::EnclosureId& enclosure) {
    return is_any_venomous(with, inside(with, enclosure));
}

void warn_of_handling(const Case& with, const Animals& animals, std::vector<Caution>& cautions) {
    if (any_taxon(with, animals, [](const MaybeTaxon& taxon) { return taxon && taxon->venomous; })) {
        heed(cautions, with.tables, says::venomous_handling());
    } else if (is_any_venomous(with, animals)) {
        heed(cautions, with.tables, says::perhaps_venomous_handling());
    } else if (any_taxon(with, animals, [](const MaybeTaxon& taxon) { return taxon->very_long; })) {
        heed(cautions, with.tables, says::very_long_handling());
    }
}

std::vector<Caution> handling_cautions(const Case& with, const records::EnclosureId& enclosure) {
    std::vector<Caution> cautions;
    warn_of_handling(with, inside(with, enclosure), cautions);
    return cautions;
}

}  // namespace mitefall::safety
