#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/vocabulary.h"
#include "evidence/cited.h"
#include "records/collection.h"
#include "records/method.h"
#include "records/names.h"
#include "statement/statement.h"
#include "units/day.h"

namespace mitefall::safety {

/// From the mildest to the most severe; the order is used.
enum class Ruling {
    allowed,
    bedding_only,  ///< treat the enclosure, not the animal
    wait_until,
    ask_vet,  ///< ask a veterinarian, or supply the missing fact, first
    never,
};

using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(Ruling) {
    using enum Ruling;
    return base::vocabulary("ruling", allowed, "allowed", bedding_only, "bedding-only", wait_until,
                            "wait-until", ask_vet, "ask-vet", never, "never");
}
[[nodiscard]] std::string_view describe(Ruling ruling);  ///< "treat the bedding only"

/// One reason against a method: a rule that holds, and what to do about it.
struct Reason {
    Ruling ruling = Ruling::never;
    statement::Statement what;
    std::string source;  ///< empty for common practice and assumptions
    evidence::Tag tag = evidence::Tag::assumption;
    std::optional<units::Day> until;  ///< of wait_until, where the day is known
    statement::Statement remedy;      ///< empty: nothing but to leave it
    bool needs_fact = false;  ///< a fact is missing or stale; no veterinarian's direction stands in for it
    std::optional<records::Dated> since{};  ///< the entry it rests on; none: it was so all along
    bool beyond_direction = false;  ///< about another animal, or about what is only proposed: not directed on
};

struct Caution {
    statement::Statement what;
    std::string source;  ///< empty for common practice and assumptions
    evidence::Tag tag = evidence::Tag::assumption;
    std::vector<records::AnimalId>
        animals{};  ///< of the collection, that it names; none: it holds for anybody
};

/// May this animal be given this method on this day?
struct Verdict {
    records::AnimalId animal;
    records::Method method = records::Method::change_substrate;
    Ruling ruling = Ruling::never;
    std::optional<units::Day> until;  ///< of wait_until, where the day is known
    std::vector<Reason> reasons;      ///< all, most severe first; empty only if allowed
    std::vector<Caution> cautions;
};

/// Whether the method may go ahead: allowed, or bedding_only where the method is the spraying of bedding.
[[nodiscard]] bool permits(const Verdict& verdict);

}  // namespace mitefall::safety
