#include "safety/gates.h"
#include "safety/methods.h"

// A clean plain tub in place of the enclosure: who can live in one, and what is left of mites in the old.
namespace mitefall::safety {
namespace {

using evidence::TaxonGroup;

bool is_any_snake(TaxonGroup group) {
    return group == TaxonGroup::snake || group == TaxonGroup::indigo_snake;
}

/// A tub is closed by a lid that somebody puts on; what must not get out needs a lock.
void check_lock(const Question& question, Findings& findings) {
    const evidence::Taxon& taxon = *question.taxon;
    if (taxon.venomous)
        refuse(findings, question.with.tables, says::tub_does_not_lock(), says::paper_in_its_own());
    else if (taxon.perhaps_venomous)
        refuse(findings, question.with.tables, says::perhaps_venomous(), says::name_species_meanwhile());
}

void check_house(const Question& question, Findings& findings) {
    const auto& tables = question.with.tables;
    const evidence::Taxon& taxon = *question.taxon;
    if (!is_any_snake(taxon.group)) {
        refuse(findings, tables, says::needs_more_than_a_tub(term(taxon.group)), says::paper_in_its_own());
    } else if (taxon.very_long) {
        const units::Mass largest = tables.mass("tub_largest_body_mass").value;
        const auto mass = valid_mass(question.animal, question.request.day, tables);
        if (!mass || *mass > largest)
            refuse(findings, tables, says::house_in_a_tub(taxon.shown_name(), largest),
                   says::tub_of_its_size());
    }
    if (taxon.rainforest) heed(findings.cautions, tables, says::tub_dries_out(named(question.animal)));
}

}  // namespace

void check_tub_for(const Case& with, const records::Enclosure& enclosure, records::Method method,
                   Findings& findings) {
    if (!houses_anew(method) || enclosure.material != records::Material::porous) return;
    refuse(findings, with.tables, says::wood_keeps_mites(), says::empty_the_wood());
}

void check_tub(const Question& question, Findings& findings) {
    if (!houses_anew(question.request.method)) return;
    check_tub_for(question.with, question.home, question.request.method, findings);
    if (!question.taxon) return;  // who is not known is asked for by another gate
    for (const auto& noted : question.animal.conditions) {
        if (noted.value.condition == records::Condition::gravid)
            heed(findings.cautions, question.with.tables, says::tub_before_laying(named(question.animal)));
    }
    check_lock(question, findings);
    check_house(question, findings);
}

}  // namespace mitefall::safety
