#include "evidence/taxa.h"

#include <algorithm>

#include "evidence/names_alike.h"

namespace mitefall::evidence {

std::optional<Taxon> Taxa::find(std::string_view text) const {
    if (const auto found = by_name_.find(key_of(text)); found != by_name_.end()) return taxa_[found->second];
    const Meaning meant = meaning(text);
    return meant.kinds.size() == 1 ? std::optional(*meant.kinds.front()) : std::nullopt;
}

Taxa::Meaning Taxa::meaning(std::string_view text) const {
    const std::string key = key_of(text);
    if (const auto found = trade_.find(key); found != trade_.end()) {
        Meaning meant{found->second.size() == 1 ? Understood::trade_name : Understood::several, {}};
        for (const std::size_t kind : found->second) meant.kinds.push_back(&taxa_[kind]);
        return meant;
    }
    if (const auto found = by_name_.find(key); found != by_name_.end())
        return {Understood::name, {&taxa_[found->second]}};
    if (const auto found = by_genus_.find(first_word(text)); found != by_genus_.end())
        return {Understood::genus, {&taxa_[found->second]}};
    return {};
}

const std::string& Taxa::plain_name(const Taxon& taxon) const {
    const auto is_plain = [&](const std::string& name) { return meaning(name).kinds.size() == 1; };
    const auto found = std::find_if(taxon.common.begin(), taxon.common.end(), is_plain);
    return found == taxon.common.end() ? taxon.scientific : *found;
}

}  // namespace mitefall::evidence
