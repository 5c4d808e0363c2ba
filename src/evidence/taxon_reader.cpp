#include "evidence/taxon_reader.h"

#include <algorithm>
#include <array>
#include <utility>

#include "evidence/names_alike.h"

namespace mitefall::evidence {
namespace {

using base::Error;
using base::fail;
using base::Result;

constexpr std::array known_kind_keys{"scientific", "common", "synonyms", "group", "flags"};

class TaxonReader {
  public:
    TaxonReader(const std::string& file, const toml::table& table) : table_(table), row_(file, table) {}

    Result<Taxon> read() const {
        if (const auto unknown = row_.refuse_unknown_keys(known_kind_keys)) return fail(*unknown);
        Taxon taxon;
        taxon.scientific = table_["scientific"].value_or(std::string());
        if (key_of(taxon.scientific).empty()) return fail(wrong("scientific", "must be a text with letters"));
        if (auto fault = read_group(taxon)) return fail(*fault);
        if (auto fault = read_texts(row_, "common", taxon.common)) return fail(*fault);
        if (auto fault = read_texts(row_, "synonyms", taxon.synonyms)) return fail(*fault);
        if (auto fault = read_flags(taxon)) return fail(*fault);
        return taxon;
    }

  private:
    Error wrong(std::string_view name, std::string what) const { return row_.wrong(name, std::move(what)); }

    std::optional<Error> read_group(Taxon& taxon) const {
        const auto text = table_["group"].value<std::string>();
        if (const auto group = text ? base::from_text<TaxonGroup>(*text) : std::nullopt) {
            taxon.group = *group;
            return std::nullopt;
        }
        return wrong("group", text ? "unknown group \"" + *text + "\"" : "must be a text");
    }

    std::optional<Error> read_flags(Taxon& taxon) const {
        std::vector<std::string> flags;
        if (auto fault = read_texts(row_, "flags", flags)) return fault;
        const std::array<std::pair<std::string_view, bool*>, 8> known{
            {{"no_fipronil", &taxon.no_fipronil},
             {"small_species", &taxon.small_species},
             {"unidentified", &taxon.unidentified},
             {"whole_genus", &taxon.whole_genus},
             {"venomous", &taxon.venomous},
             {"perhaps_venomous", &taxon.perhaps_venomous},
             {"very_long", &taxon.very_long},
             {"rainforest", &taxon.rainforest}}};
        for (const std::string& flag : flags) {
            const auto found =
                std::find_if(known.begin(), known.end(), [&](const auto& k) { return k.first == flag; });
            if (found == known.end()) return wrong("flags", "unknown flag \"" + flag + "\"");
            *found->second = true;
        }
        return std::nullopt;
    }

    const toml::table& table_;
    TomlRow row_;
};

}  // namespace

std::optional<Error> read_texts(const TomlRow& row, std::string_view name, std::vector<std::string>& texts) {
    const toml::node* const node = row.table().get(name);
    if (node == nullptr) return std::nullopt;
    const toml::array* const list = node->as_array();
    if (list == nullptr) return row.wrong(name, "must be a list of texts");
    for (const toml::node& item : *list) {
        const auto text = item.value<std::string>();
        if (!text || key_of(*text).empty()) return row.wrong(name, "must be a list of texts with letters");
        texts.push_back(*text);
    }
    return std::nullopt;
}

Result<Taxon> read_taxon(const std::string& file, const toml::table& table) {
    return TaxonReader(file, table).read();
}

}  // namespace mitefall::evidence
