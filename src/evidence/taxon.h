#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

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

[[nodiscard]] std::string_view to_text(TaxonGroup group);  ///< "other_lizard"
[[nodiscard]] std::optional<TaxonGroup> parse_group(std::string_view text);
[[nodiscard]] std::string_view describe(TaxonGroup group);  ///< "lizard"

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
