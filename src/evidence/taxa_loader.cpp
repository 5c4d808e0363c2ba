#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "evidence/names_alike.h"
#include "evidence/taxa.h"
#include "evidence/taxon_reader.h"

namespace mitefall::evidence {
namespace {

using base::Error;
using base::fail;
using base::Result;

constexpr std::array known_trade_keys{"names", "kinds"};

std::vector<std::string> names_of(const Taxon& taxon) {
    std::vector<std::string> names{taxon.scientific};
    names.insert(names.end(), taxon.common.begin(), taxon.common.end());
    names.insert(names.end(), taxon.synonyms.begin(), taxon.synonyms.end());
    return names;
}

/// Whether what holds for `row` forbids no less than what holds for `other`.
bool as_strict(const Taxon& row, const Taxon& other) {
    const auto covers = [](bool mine, bool its) { return mine || !its; };
    if (row.group != other.group || !covers(row.venomous || row.perhaps_venomous, other.venomous) ||
        !covers(row.very_long, other.very_long) || !covers(row.rainforest, other.rainforest)) {
        return false;
    }
    return row.unidentified ||
           (covers(row.no_fipronil, other.no_fipronil) && covers(row.small_species, other.small_species));
}

}  // namespace

std::optional<std::string> Taxa::add(Taxon taxon) {
    const std::size_t index = taxa_.size();
    for (const std::string& name : names_of(taxon)) {
        const auto [place, is_new] = by_name_.emplace(key_of(name), index);
        if (!is_new && place->second != index) return name;
        spelling_.emplace(key_of(name), name);
    }
    if (taxon.whole_genus) {
        for (const std::string& name : names_of(taxon)) {
            const bool is_common =
                std::find(taxon.common.begin(), taxon.common.end(), name) != taxon.common.end();
            if (!is_common) by_genus_.emplace(first_word(name), index);
        }
    }
    taxa_.push_back(std::move(taxon));
    return std::nullopt;
}

/// Reads files in two turns: trade names need the rows they mean.
class Taxa::Loader {
  public:
    std::optional<Error> read(const TableText& file) {
        auto table = parse_toml(file);
        if (!table) return table.error();
        for (const auto& [section, node] : *table) {
            const bool is_known = section.str() == "taxon" || section.str() == "trade_name";
            const toml::array* const rows = node.as_array();
            if (!is_known || rows == nullptr || !rows->is_array_of_tables()) {
                return damaged(file.name, node.source(), section.str(),
                               "only [[taxon]] and [[trade_name]] tables belong here");
            }
            if (section.str() == "trade_name") continue;
            for (const toml::node& row : *rows) {
                if (auto fault = add_taxon(file, *row.as_table())) return fault;
            }
        }
        read_.emplace_back(&file, std::move(*table));
        return std::nullopt;
    }

    std::optional<Error> read_trade_names() {
        for (const auto& [file, table] : read_) {
            const toml::array* const rows = table["trade_name"].as_array();
            if (rows == nullptr) continue;
            for (const toml::node& row : *rows) {
                if (auto fault = add_trade_names(TomlRow(file->name, *row.as_table()))) return fault;
            }
        }
        return std::nullopt;
    }

    Taxa take() { return std::move(taxa_); }

  private:
    std::optional<Error> add_taxon(const TableText& file, const toml::table& row) {
        auto taxon = read_taxon(file.name, row);
        if (!taxon) return taxon.error();
        const std::string scientific = taxon->scientific;
        const auto taken = taxa_.add(std::move(*taxon));
        if (!taken) return std::nullopt;
        return damaged(file.name, row.source(), scientific, "the name \"" + *taken + "\" is taken");
    }

    std::optional<Error> read_kinds(const TomlRow& row, std::vector<std::size_t>& kinds) const {
        std::vector<std::string> texts;
        if (auto fault = read_texts(row, "kinds", texts)) return fault;
        for (const std::string& text : texts) {
            const auto found = taxa_.by_name_.find(key_of(text));
            const bool is_row = found != taxa_.by_name_.end() &&
                                key_of(taxa_.taxa_[found->second].scientific) == found->first;
            if (!is_row) return row.wrong("kinds", "no row is \"" + text + "\"");
            if (std::find(kinds.begin(), kinds.end(), found->second) != kinds.end())
                return row.wrong("kinds", "\"" + text + "\" is there twice");
            kinds.push_back(found->second);
        }
        return std::nullopt;
    }

    /// A name of a row is found as before, so its row must be as strict as all the name may mean.
    std::optional<Error> clash(const TomlRow& row, const std::string& name,
                               const std::vector<std::size_t>& kinds) const {
        const auto found = taxa_.by_name_.find(key_of(name));
        if (found == taxa_.by_name_.end()) return std::nullopt;
        const bool is_one = std::find(kinds.begin(), kinds.end(), found->second) != kinds.end();
        if (kinds.size() < 2 || !is_one) return row.wrong("names", "the name \"" + name + "\" is taken");
        return less_strict(row, "names", found->second, kinds);
    }

    std::optional<Error> less_strict(const TomlRow& row, std::string_view key, std::size_t read_as,
                                     const std::vector<std::size_t>& kinds) const {
        for (const std::size_t kind : kinds) {
            const Taxon& one = taxa_.taxa_[read_as];
            const Taxon& other = taxa_.taxa_[kind];
            if (!as_strict(one, other)) {
                return row.wrong(key,
                                 fmt::format("{} is less strict than {}", one.scientific, other.scientific));
            }
        }
        return std::nullopt;
    }

    std::optional<Error> add_trade_names(const TomlRow& row) {
        if (auto fault = row.refuse_unknown_keys(known_trade_keys)) return fault;
        std::vector<std::string> names;
        std::vector<std::size_t> kinds;
        if (auto fault = read_texts(row, "names", names)) return fault;
        if (auto fault = read_kinds(row, kinds)) return fault;
        if (names.empty()) return row.wrong("names", "must be a list of texts");
        if (kinds.empty()) return row.wrong("kinds", "must be a list of texts");
        for (const std::size_t kind : kinds) {
            if (!taxa_.taxa_[kind].unidentified) continue;
            if (auto fault = less_strict(row, "kinds", kind, kinds)) return fault;
        }
        for (const std::string& name : names) {
            if (auto fault = clash(row, name, kinds)) return fault;
            if (!taxa_.trade_.emplace(key_of(name), kinds).second)
                return row.wrong("names", "the name \"" + name + "\" is taken");
        }
        return std::nullopt;
    }

    Taxa taxa_;
    std::vector<std::pair<const TableText*, toml::table>> read_;
};

Result<Taxa> Taxa::load(std::span<const TableText> files) {
    Loader loader;
    for (const TableText& file : files) {
        if (const auto fault = loader.read(file)) return fail(*fault);
    }
    if (const auto fault = loader.read_trade_names()) return fail(*fault);
    return loader.take();
}

Result<Taxa> Taxa::load_embedded() { return load(embedded_texts("data/taxa/")); }

}  // namespace mitefall::evidence
