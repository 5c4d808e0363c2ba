#include "safety/gates.h"

#include "base/contract.h"

namespace mitefall::safety {

using evidence::Tag;

Basis practice() { return {{}, Tag::common_practice}; }
Basis our_assumption() { return {{}, Tag::assumption}; }

Basis published(const evidence::Tables& tables, std::string_view source_key, Tag tag) {
    const auto found = tables.sources().find(source_key);
    base::expects(found != tables.sources().end(),
                  "evidence has no source \"" + std::string(source_key) + "\"");
    return {found->second, tag};
}

Reason against(Ruling ruling, std::string text, const Basis& basis, std::string remedy) {
    return {ruling, std::move(text), basis.source, basis.tag, std::nullopt, std::move(remedy), false};
}

Reason missing_fact(std::string text, const Basis& basis, std::string remedy) {
    return {Ruling::ask_vet, std::move(text), basis.source, basis.tag, std::nullopt, std::move(remedy), true};
}

Caution caution(std::string text, const Basis& basis) { return {std::move(text), basis.source, basis.tag}; }

}  // namespace mitefall::safety
