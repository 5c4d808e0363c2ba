#include "evidence/taxa.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "base/embedded.h"
#include "evidence/toml_text.h"

namespace mitefall::evidence {
namespace {

using base::Error;
using base::fail;
using base::Result;

constexpr std::array all_groups{TaxonGroup::snake,        TaxonGroup::indigo_snake, TaxonGroup::skink,
                                TaxonGroup::other_lizard, TaxonGroup::chelonian,    TaxonGroup::crocodilian,
                                TaxonGroup::amphibian,    TaxonGroup::invertebrate, TaxonGroup::fish,
                                TaxonGroup::dog,          TaxonGroup::cat,          TaxonGroup::bird,
                                TaxonGroup::other_mammal, TaxonGroup::other};
constexpr std::array known_keys{"scientific", "common", "synonyms", "group", "flags"};

bool is_letter_or_digit(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z') ||
           byte >= 0x80;
}

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string key_of(std::string_view text) {
    std::string key;
    for (const char c : text) {
        if (is_letter_or_digit(c)) key += lower(c);
    }
    return key;
}

std::string first_word(std::string_view text) {
    const auto start = std::find_if(text.begin(), text.end(), is_letter_or_digit);
    const auto end = std::find_if_not(start, text.end(), is_letter_or_digit);
    return key_of(std::string_view(start, end));
}

/// Edits (insert, delete, replace one letter) that turn one text into the other (Levenshtein 1966).
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row;
    for (std::size_t j = 0; j <= b.size(); ++j) row.push_back(j);
    std::size_t distance = b.size();
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = std::exchange(row[0], i);
        distance = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            distance = std::min({row[j] + 1, distance + 1, replaced});
            diagonal = std::exchange(row[j], distance);
        }
    }
    return distance;
}

/// Edits between two names, none when they are more than a slip or three of the finger.
std::optional<std::size_t> slips(std::string_view asked, std::string_view known) {
    const std::size_t longest_side = std::max(asked.size(), known.size());
    const std::size_t difference = longest_side - std::min(asked.size(), known.size());
    const std::size_t tolerated = longest_side >= 8 ? 3 : longest_side >= 5 ? 2 : 1;
    if (difference > tolerated) return std::nullopt;
    const std::size_t distance = edit_distance(asked, known);
    return distance <= tolerated ? std::optional(distance) : std::nullopt;
}

/// How unlike a known name is; none when too unlike to be worth showing. A slip is nearer than a part.
std::optional<std::size_t> unlikeness(std::string_view asked, std::string_view known) {
    if (const auto distance = slips(asked, known)) return distance;
    constexpr std::size_t shortest_part = 5;
    constexpr std::size_t beyond_slips = 4;
    const bool contained = known.size() >= shortest_part && asked.find(known) != std::string_view::npos;
    const bool contains = asked.size() >= shortest_part && known.find(asked) != std::string_view::npos;
    return contained || contains ? std::optional(beyond_slips) : std::nullopt;
}

/// Reads one [[taxon]] table.
class TaxonReader {
  public:
    TaxonReader(const std::string& file, const toml::table& table) : table_(table), row_(file, table) {}

    Result<Taxon> read() const {
        if (const auto unknown = row_.refuse_unknown_keys(known_keys)) return fail(*unknown);
        Taxon taxon;
        taxon.scientific = table_["scientific"].value_or(std::string());
        if (key_of(taxon.scientific).empty()) return fail(wrong("scientific", "must be a text with letters"));
        if (auto fault = read_group(taxon)) return fail(*fault);
        if (auto fault = read_texts("common", taxon.common)) return fail(*fault);
        if (auto fault = read_texts("synonyms", taxon.synonyms)) return fail(*fault);
        if (auto fault = read_flags(taxon)) return fail(*fault);
        return taxon;
    }

  private:
    Error wrong(std::string_view name, std::string what) const { return row_.wrong(name, std::move(what)); }

    std::optional<Error> read_group(Taxon& taxon) const {
        const auto text = table_["group"].value<std::string>();
        for (const TaxonGroup group : all_groups) {
            if (text && to_text(group) == *text) {
                taxon.group = group;
                return std::nullopt;
            }
        }
        return wrong("group", text ? "unknown group \"" + *text + "\"" : "must be a text");
    }

    std::optional<Error> read_texts(std::string_view name, std::vector<std::string>& texts) const {
        const toml::node* const node = table_.get(name);
        if (node == nullptr) return std::nullopt;
        const toml::array* const list = node->as_array();
        if (list == nullptr) return wrong(name, "must be a list of texts");
        for (const toml::node& item : *list) {
            const auto text = item.value<std::string>();
            if (!text || key_of(*text).empty()) return wrong(name, "must be a list of texts with letters");
            texts.push_back(*text);
        }
        return std::nullopt;
    }

    std::optional<Error> read_flags(Taxon& taxon) const {
        std::vector<std::string> flags;
        if (auto fault = read_texts("flags", flags)) return fault;
        const std::array<std::pair<std::string_view, bool*>, 7> known{
            {{"no_fipronil", &taxon.no_fipronil},
             {"small_species", &taxon.small_species},
             {"unidentified", &taxon.unidentified},
             {"whole_genus", &taxon.whole_genus},
             {"venomous", &taxon.venomous},
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

std::vector<std::string> names_of(const Taxon& taxon) {
    std::vector<std::string> names{taxon.scientific};
    names.insert(names.end(), taxon.common.begin(), taxon.common.end());
    names.insert(names.end(), taxon.synonyms.begin(), taxon.synonyms.end());
    return names;
}

}  // namespace

std::string_view to_text(TaxonGroup group) {
    switch (group) {
        case TaxonGroup::snake: return "snake";
        case TaxonGroup::indigo_snake: return "indigo_snake";
        case TaxonGroup::skink: return "skink";
        case TaxonGroup::other_lizard: return "other_lizard";
        case TaxonGroup::chelonian: return "chelonian";
        case TaxonGroup::crocodilian: return "crocodilian";
        case TaxonGroup::amphibian: return "amphibian";
        case TaxonGroup::invertebrate: return "invertebrate";
        case TaxonGroup::fish: return "fish";
        case TaxonGroup::dog: return "dog";
        case TaxonGroup::cat: return "cat";
        case TaxonGroup::bird: return "bird";
        case TaxonGroup::other_mammal: return "other_mammal";
        case TaxonGroup::other: return "other";
    }
    return {};
}

std::string_view describe(TaxonGroup group) {
    switch (group) {
        case TaxonGroup::snake: return "snake";
        case TaxonGroup::indigo_snake: return "indigo snake";
        case TaxonGroup::skink: return "skink";
        case TaxonGroup::other_lizard: return "lizard";
        case TaxonGroup::chelonian: return "tortoise, turtle or terrapin";
        case TaxonGroup::crocodilian: return "crocodilian";
        case TaxonGroup::amphibian: return "amphibian";
        case TaxonGroup::invertebrate: return "invertebrate";
        case TaxonGroup::fish: return "fish";
        case TaxonGroup::dog: return "dog";
        case TaxonGroup::cat: return "cat";
        case TaxonGroup::bird: return "bird";
        case TaxonGroup::other_mammal: return "mammal";
        case TaxonGroup::other: return "other animal";
    }
    return {};
}

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

Result<Taxa> Taxa::load(std::span<const TableText> files) {
    Taxa taxa;
    for (const TableText& file : files) {
        const auto table = parse_toml(file);
        if (!table) return fail(table.error());
        for (const auto& [section, node] : *table) {
            const toml::array* const rows = node.as_array();
            if (section.str() != "taxon" || rows == nullptr || !rows->is_array_of_tables()) {
                return fail(
                    damaged(file.name, node.source(), section.str(), "only [[taxon]] tables belong here"));
            }
            for (const toml::node& row : *rows) {
                auto taxon = TaxonReader(file.name, *row.as_table()).read();
                if (!taxon) return fail(taxon.error());
                const std::string scientific = taxon->scientific;
                if (const auto taken = taxa.add(std::move(*taxon))) {
                    return fail(
                        damaged(file.name, row.source(), scientific, "the name \"" + *taken + "\" is taken"));
                }
            }
        }
    }
    return taxa;
}

Result<Taxa> Taxa::load_embedded() {
    std::vector<TableText> files;
    for (const base::EmbeddedFile& file : base::embedded_files()) {
        if (file.name.starts_with("data/taxa/"))
            files.push_back({std::string(file.name), std::string(file.text)});
    }
    return load(files);
}

std::optional<Taxon> Taxa::find(std::string_view text) const {
    if (const auto found = by_name_.find(key_of(text)); found != by_name_.end()) return taxa_[found->second];
    if (const auto found = by_genus_.find(first_word(text)); found != by_genus_.end())
        return taxa_[found->second];
    return std::nullopt;
}

std::vector<std::string> Taxa::suggest(std::string_view text) const {
    constexpr std::size_t most = 5;
    const std::string asked = key_of(text);
    std::vector<std::pair<std::size_t, std::string>> near;
    for (const auto& [key, name] : spelling_) {
        if (const auto distance = unlikeness(asked, key); distance && !asked.empty())
            near.emplace_back(*distance, name);
    }
    std::sort(near.begin(), near.end());
    std::vector<std::string> names;
    for (const auto& [distance, name] : near) {
        if (names.size() < most) names.push_back(name);
    }
    return names;
}

std::vector<Taxa::Found> Taxa::search(std::string_view text, std::size_t most) const {
    const std::string asked = key_of(text);
    std::vector<Found> found;
    if (asked.empty()) return found;
    std::set<std::size_t> told;
    const auto add = [&](const std::string& key) {
        const std::size_t index = by_name_.find(key)->second;
        if (found.size() < most && told.insert(index).second)
            found.push_back({&taxa_[index], spelling_.at(key)});
    };
    for (const auto& [key, name] : spelling_) {
        if (key.starts_with(asked)) add(key);
    }
    for (const auto& [key, name] : spelling_) {
        if (key.find(asked) != std::string::npos) add(key);
    }
    for (const std::string& name : suggest(text)) add(key_of(name));
    return found;
}

}  // namespace mitefall::evidence
