#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evidence/tables.h"
#include "evidence/taxa.h"
#include "records/method.h"
#include "safety/methods.h"
#include "safety/verdict.h"
#include "statement/statement.h"

// What the safety check can say. One row each in rules.def, from which everything here is made.
namespace mitefall::safety {

/// Where a rule comes from, before it is looked up in the tables.
struct Origin {
    enum class Of { figure, source, practice, assumption, direction };
    Of of = Of::assumption;
    std::string_view key{};  ///< of a figure or a source
    evidence::Tag tag = evidence::Tag::assumption;
};

/// Something that stands against a treatment.
struct Against {
    statement::Statement what;
    Ruling ruling = Ruling::never;
    Origin origin;
    bool needs_fact = false;
};

/// Something to heed beside the action.
struct Heed {
    statement::Statement what;
    Origin origin;
};

template <class... Types>
struct Rule {
    statement::Kind<Types...> kind;
    Ruling ruling;
    Origin origin;
    bool needs_fact;
    [[nodiscard]] Against operator()(Types... values) const {
        return {kind(std::move(values)...), ruling, origin, needs_fact};
    }
};

template <class... Types>
struct Warning {
    statement::Kind<Types...> kind;
    Origin origin;
    [[nodiscard]] Heed operator()(Types... values) const { return {kind(std::move(values)...), origin}; }
};

template <class... Types>
constexpr Rule<Types...> rule(statement::Kind<Types...> kind, Ruling ruling, Origin origin, bool needs_fact) {
    return {kind, ruling, origin, needs_fact};
}

template <class... Types>
constexpr Warning<Types...> warning(statement::Kind<Types...> kind, Origin origin) {
    return {kind, origin};
}

namespace says {

using evidence::Tag;
using statement::Names;
using statement::takes;
using statement::Term;
using units::Area;
using units::Day;
using units::Dose;
using units::Mass;
using units::Strength;
using units::Temperature;
using units::TimeSpan;
using Inside = std::vector<statement::Statement>;

constexpr Origin figure(std::string_view key) { return {Origin::Of::figure, key, {}}; }
constexpr Origin source(std::string_view key, Tag tag) { return {Origin::Of::source, key, tag}; }
inline constexpr Origin practice{Origin::Of::practice, {}, {}};
inline constexpr Origin assumed{Origin::Of::assumption, {}, {}};
inline constexpr Origin direction{Origin::Of::direction, {}, {}};
inline constexpr Origin handbook = source("veterinary-handbook", Tag::memory);

#define RULE(id, ruling, origin, arguments) \
    inline constexpr auto id = rule(statement::kind(#id, arguments), Ruling::ruling, origin, false);
#define FACT(id, origin, arguments) \
    inline constexpr auto id = rule(statement::kind(#id, arguments), Ruling::ask_vet, origin, true);
#define CAUTION(id, origin, arguments) \
    inline constexpr auto id = warning(statement::kind(#id, arguments), origin);
#define REMEDY(id, arguments) inline constexpr auto id = statement::kind(#id, arguments);
#define PART(id, arguments) inline constexpr auto id = statement::kind(#id, arguments);
#include "safety/rules.def"
#undef RULE
#undef FACT
#undef CAUTION
#undef REMEDY
#undef PART

}  // namespace says

/// The same, looked up.
struct Basis {
    std::string source;
    evidence::Tag tag = evidence::Tag::assumption;
};
[[nodiscard]] Basis look_up(const Origin& origin, const evidence::Tables& tables);

[[nodiscard]] Reason reason_of(Against against, const evidence::Tables& tables, statement::Statement remedy);

/// What part of what is said a row is.
enum class Role { rule, caution, remedy, part };

struct RuleRow {
    statement::Row row;
    Role role = Role::rule;
};

/// Every row of rules.def, in its order.
[[nodiscard]] const std::vector<RuleRow>& all_rules();

[[nodiscard]] statement::Term term(records::Method method);
[[nodiscard]] statement::Term term(evidence::TaxonGroup kind);
[[nodiscard]] statement::Term term(Agent agent);
[[nodiscard]] statement::Term term(records::Condition condition);
[[nodiscard]] statement::Term term(records::Sign sign);
[[nodiscard]] statement::Term term(records::AskedState state);
[[nodiscard]] statement::Names named(const records::Animal& animal);

}  // namespace mitefall::safety
