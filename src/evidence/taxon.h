#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/vocabulary.h"

namespace mitefall::evidence {

/// Groups the safety rules tell apart.
enum class TaxonGroup {
    snake,
    indigo_snake,  ///< Drymarchon
    skink,
    other_lizard,
    chelonian,
    crocodilian,
    amphibian,
    invertebrate,
    fish,
    dog,
    cat,
    bird,
    other_mammal,
    other,
};

/// A group, its text in the data files, and what people call one of it.
struct GroupRow {
    TaxonGroup group;
    std::string_view text;
    std::string_view name;
};
inline constexpr std::array group_rows{
    GroupRow{TaxonGroup::snake, "snake", "snake"},
    GroupRow{TaxonGroup::indigo_snake, "indigo_snake", "indigo snake"},
    GroupRow{TaxonGroup::skink, "skink", "skink"},
    GroupRow{TaxonGroup::other_lizard, "other_lizard", "lizard"},
    GroupRow{TaxonGroup::chelonian, "chelonian", "tortoise, turtle or terrapin"},
    GroupRow{TaxonGroup::crocodilian, "crocodilian", "crocodilian"},
    GroupRow{TaxonGroup::amphibian, "amphibian", "amphibian"},
    GroupRow{TaxonGroup::invertebrate, "invertebrate", "invertebrate"},
    GroupRow{TaxonGroup::fish, "fish", "fish"},
    GroupRow{TaxonGroup::dog, "dog", "dog"},
    GroupRow{TaxonGroup::cat, "cat", "cat"},
    GroupRow{TaxonGroup::bird, "bird", "bird"},
    GroupRow{TaxonGroup::other_mammal, "other_mammal", "mammal"},
    GroupRow{TaxonGroup::other, "other", "other animal"},
};
static_assert(base::in_order(group_rows, &GroupRow::group));

[[nodiscard]] constexpr auto vocabulary_of(TaxonGroup) {
    return base::vocabulary("group of animals", group_rows, &GroupRow::group, &GroupRow::text);
}
using base::to_text;

/// "lizard"
[[nodiscard]] constexpr std::string_view describe(TaxonGroup group) {
    return base::row_in(group_rows, group).name;
}

struct Taxon {
    std::string scientific;
    std::vector<std::string> common;    ///< the first is the one to show
    std::vector<std::string> synonyms;  ///< older or alternative scientific names
    TaxonGroup group = TaxonGroup::other;
    bool no_fipronil = false;       ///< fipronil is reported to harm it
    bool small_species = false;     ///< adults are often below 200 g
    bool unidentified = false;      ///< "a snake": the group is known, the species is not
    bool whole_genus = false;       ///< every species of the genus falls under the same rules
    bool venomous = false;          ///< dangerous to whoever handles it
    bool perhaps_venomous = false;  ///< a group of which some are
    bool very_long = false;         ///< adults are often longer than about 2.5 m
    bool rainforest = false;        ///< of humid forest or water: dries out quickly, never without water

    [[nodiscard]] const std::string& shown_name() const {
        return common.empty() ? scientific : common.front();
    }
};

}  // namespace mitefall::evidence
