#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "evidence/tables.h"

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

[[nodiscard]] std::string_view to_text(TaxonGroup group);   ///< "other_lizard"
[[nodiscard]] std::string_view describe(TaxonGroup group);  ///< "lizard"

struct Taxon {
    std::string scientific;
    std::vector<std::string> common;    ///< the first is the one to show
    std::vector<std::string> synonyms;  ///< older or alternative scientific names
    TaxonGroup group = TaxonGroup::other;
    bool no_fipronil = false;    ///< fipronil is reported to harm it
    bool small_species = false;  ///< adults are often below 200 g
    bool unidentified = false;   ///< "a snake": the group is known, the species is not
    bool whole_genus = false;    ///< every species of the genus falls under the same rules
    bool venomous = false;       ///< dangerous to whoever handles it
    bool very_long = false;      ///< adults are often longer than about 2.5 m
    bool rainforest = false;     ///< of humid forest or water: dries out quickly, never without water

    [[nodiscard]] const std::string& shown_name() const {
        return common.empty() ? scientific : common.front();
    }
};

/// The kinds of animal the program knows. A kind it does not know is never taken for a safe one.
///
/// File format (TOML 1.0): `[[taxon]]` with `scientific` and `group`, optionally `common`, `synonyms` (lists
/// of texts) and `flags` (a list of "no_fipronil", "small_species", "unidentified", "whole_genus",
/// "venomous", "very_long", "rainforest").
class Taxa {
  public:
    /// Errors name file, line and key.
    [[nodiscard]] static base::Result<Taxa> load(std::span<const TableText> files);

    /// The table carried inside the program.
    [[nodiscard]] static base::Result<Taxa> load_embedded();

    /// The taxon of that name. Case, spaces, hyphens and points do not matter; spelling does. A name of a
    /// genus marked whole_genus is found whatever species follows.
    [[nodiscard]] std::optional<Taxon> find(std::string_view text) const;

    /// Names much like `text`, nearest first, at most five. For a person to choose from, never to decide by.
    [[nodiscard]] std::vector<std::string> suggest(std::string_view text) const;

    struct Found {
        const Taxon* taxon = nullptr;
        std::string written;  ///< the name that matched, as in the table
    };
    /// Kinds with a name that begins with `text`, then those with one that holds it, then those with one much
    /// like it; each kind once, at most `most`. For a person to choose from, never to decide by.
    [[nodiscard]] std::vector<Found> search(std::string_view text, std::size_t most) const;

    [[nodiscard]] const std::vector<Taxon>& all() const { return taxa_; }

  private:
    [[nodiscard]] std::optional<std::string> add(Taxon taxon);

    std::vector<Taxon> taxa_;
    std::map<std::string, std::size_t, std::less<>> by_name_;   // letters and digits only, lower case
    std::map<std::string, std::size_t, std::less<>> by_genus_;  // whole_genus rows
    std::map<std::string, std::string, std::less<>> spelling_;  // key of by_name_ -> as written in the table
};

}  // namespace mitefall::evidence
