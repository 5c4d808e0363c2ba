#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/vocabulary.h"
#include "evidence/tables.h"
#include "evidence/taxon.h"

namespace mitefall::evidence {

/// How a name of a kind is understood.
enum class Understood {
    name,        ///< a name of the table, common or scientific
    genus,       ///< a genus that is known as a whole
    trade_name,  ///< a short or trade name of one kind: "ball", "GTP"
    several,     ///< a short or trade name of more than one kind: whoever wrote it is asked
    unknown,
};
using base::to_text;

[[nodiscard]] constexpr auto vocabulary_of(Understood) {
    using enum Understood;
    return base::vocabulary("way of understanding a name", name, "name", genus, "genus", trade_name,
                            "trade-name", several, "several", unknown, "unknown");
}

/// The kinds of animal the program knows. A kind it does not know is never taken for a safe one.
///
/// File format (TOML 1.0): `[[taxon]]` with `scientific` and `group`, optionally `common`, `synonyms` (lists
/// of texts) and `flags` (a list of "no_fipronil", "small_species", "unidentified", "whole_genus",
/// "perhaps_venomous", "venomous", "very_long", "rainforest"); `[[trade_name]]` with `names` and `kinds`, the
/// scientific names of the rows each of the names may mean. A name of a row may be a trade name of several
/// kinds too, if the row is one of them and its rules are as strict as those of every other.
class Taxa {
  public:
    /// Errors name file, line and key.
    [[nodiscard]] static base::Result<Taxa> load(std::span<const TableText> files);

    /// The table carried inside the program.
    [[nodiscard]] static base::Result<Taxa> load_embedded();

    /// The taxon of that name. Case, spaces, hyphens and points do not matter; spelling does. A name of a
    /// genus marked whole_genus is found whatever species follows; so is a trade name of one kind. A trade
    /// name of several kinds finds nothing, or the row it is a name of.
    [[nodiscard]] std::optional<Taxon> find(std::string_view text) const;

    struct Meaning {
        Understood how = Understood::unknown;
        std::vector<const Taxon*> kinds;  ///< one; more of `several`; none of `unknown`
    };
    /// How the name is understood where somebody is there to be asked: several kinds are asked about even
    /// where `find` has an answer.
    [[nodiscard]] Meaning meaning(std::string_view text) const;

    /// The name of a row to offer and to put on record: the first common name that means this kind alone.
    [[nodiscard]] const std::string& plain_name(const Taxon& taxon) const;

    /// Names for what may be meant: of the kinds of a trade name, then those much like `text`, nearest first;
    /// at most five. For a person to choose from, never to decide by.
    [[nodiscard]] std::vector<std::string> suggest(std::string_view text) const;

    struct Found {
        const Taxon* taxon = nullptr;
        std::string written;  ///< the name that matched, as in the table; of a trade name the one to show
    };
    /// The kinds `text` means, then those with a name that begins with it, then those with one that holds it,
    /// then those with one much like it; each kind once, at most `most`. For a person to choose from, never
    /// to decide by.
    [[nodiscard]] std::vector<Found> search(std::string_view text, std::size_t most) const;

    [[nodiscard]] const std::vector<Taxon>& all() const { return taxa_; }

  private:
    class Loader;

    [[nodiscard]] std::optional<std::string> add(Taxon taxon);

    std::vector<Taxon> taxa_;
    std::map<std::string, std::size_t, std::less<>> by_name_;   // letters and digits only, lower case
    std::map<std::string, std::size_t, std::less<>> by_genus_;  // whole_genus rows
    std::map<std::string, std::string, std::less<>> spelling_;  // key of by_name_ -> as written in the table
    std::map<std::string, std::vector<std::size_t>, std::less<>> trade_;  // key of a trade name -> its kinds
};

}  // namespace mitefall::evidence
