#include "safety/rules.h"

#include "base/contract.h"
#include "safety/gates.h"

namespace mitefall::safety {

const std::vector<RuleRow>& all_rules() {
    static const std::vector<RuleRow> rows{
#define RULE(id, ruling, origin, arguments) {statement::row_of(says::id.kind), Role::rule},
#define FACT(id, origin, arguments) {statement::row_of(says::id.kind), Role::rule},
#define CAUTION(id, origin, arguments) {statement::row_of(says::id.kind), Role::caution},
#define REMEDY(id, arguments) {statement::row_of(says::id), Role::remedy},
#define PART(id, arguments) {statement::row_of(says::id), Role::part},
#include "safety/rules.def"
#undef RULE
#undef FACT
#undef CAUTION
#undef REMEDY
#undef PART
    };
    return rows;
}

Basis look_up(const Origin& origin, const evidence::Tables& tables) {
    using evidence::Tag;
    switch (origin.of) {
        case Origin::Of::practice: return {{}, Tag::common_practice};
        case Origin::Of::assumption: return {{}, Tag::assumption};
        case Origin::Of::direction: return {"the veterinarian's direction on record", Tag::read};
        case Origin::Of::figure: {
            const auto& figure = tables.row(origin.key).cited;
            return {std::string(figure.source), figure.tag};
        }
        case Origin::Of::source: {
            const auto found = tables.sources().find(origin.key);
            if (found == tables.sources().end())
                base::expects(false, "evidence has no source \"" + std::string(origin.key) + "\"");
            return {found->second, origin.tag};
        }
    }
    return {};
}

Reason reason_of(Against against, const evidence::Tables& tables, statement::Statement remedy) {
    auto [source, tag] = look_up(against.origin, tables);
    return {against.ruling, std::move(against.what), std::move(source), tag,
            std::nullopt,   std::move(remedy),       against.needs_fact};
}

statement::Term term(records::Method method) { return {"method", records::to_text(method)}; }
statement::Term term(evidence::TaxonGroup kind) { return {"kind", evidence::to_text(kind)}; }
statement::Term term(Agent agent) { return {"agent", name_of(agent)}; }
statement::Term term(records::Condition condition) { return {"condition", records::to_text(condition)}; }

statement::Term term(records::AskedState state) { return {"asked_state", records::to_text(state)}; }
statement::Term term(records::Sign sign) { return {"sign", records::to_text(sign)}; }

statement::Names named(const records::Animal& animal) { return {{animal.id.text(), name_of_animal(animal)}}; }

}  // namespace mitefall::safety
