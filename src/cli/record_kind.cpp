#include "cli/record_kind.h"

#include <fmt/format.h>

#include <string>
#include <variant>

#include "evidence/taxa.h"
#include "records/limits.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;
using records::Fact;

/// The question back about a name of several kinds.
base::Error which_kind(const evidence::Taxa& taxa, const evidence::Taxa::Meaning& meaning,
                       const std::string& kind) {
    std::string names;
    for (const evidence::Taxon* const one : meaning.kinds)
        names += fmt::format("{}\"{}\"", names.empty() ? "" : ", ", taxa.plain_name(*one));
    base::Error error = base::invalid("several kinds of animal are called so", kind, names);
    error.remedy = "say which of them it is";
    error.where = "--kind";
    return error;
}

}  // namespace

Result<Fact> with_full_kind(const Context& context, Result<Fact> fact) {
    if (!fact) return fact;
    auto* const arrived = std::get_if<records::AnimalArrived>(&*fact);
    auto* const noted = std::get_if<records::BystanderNoted>(&*fact);
    std::string* const kind = arrived ? &arrived->taxon : noted ? &noted->taxon : nullptr;
    if (kind == nullptr) return fact;
    const evidence::Taxa& taxa = context.knowledge().taxa;
    const auto meaning = taxa.meaning(*kind);
    if (meaning.how == evidence::Understood::several) return fail(which_kind(taxa, meaning, *kind));
    if (meaning.how == evidence::Understood::trade_name) {
        const evidence::Taxon& taxon = *meaning.kinds.front();
        context.tell(fmt::format("\"{}\" is taken for {} ({}).\n", records::on_one_line(*kind),
                                 taxa.plain_name(taxon), taxon.scientific));
        *kind = taxa.plain_name(taxon);
    }
    return fact;
}

}  // namespace mitefall::cli
