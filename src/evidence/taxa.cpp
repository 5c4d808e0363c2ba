#include "evidence/taxa.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "evidence/toml_text.h"

namespace mitefall::evidence {
namespace {

using base::Error;
using base::fail;
using base::Result;

/// A group, its text in the data files, and what people call one of it. In the order of the enumeration.
struct GroupWords {
    TaxonGroup group;
    std::string_view text;
    std::string_view name;
};
constexpr std::array group_words{
    GroupWords{TaxonGroup::snake, "snake", "snake"},
    GroupWords{TaxonGroup::indigo_snake, "indigo_snake", "indigo snake"},
    GroupWords{TaxonGroup::skink, "skink", "skink"},
    GroupWords{TaxonGroup::other_lizard, "other_lizard", "lizard"},
    GroupWords{TaxonGroup::chelonian, "chelonian", "tortoise, turtle or terrapin"},
    GroupWords{TaxonGroup::crocodilian, "crocodilian", "crocodilian"},
    GroupWords{TaxonGroup::amphibian, "amphibian", "amphibian"},
    GroupWords{TaxonGroup::invertebrate, "invertebrate", "invertebrate"},
    GroupWords{TaxonGroup::fish, "fish", "fish"},
    GroupWords{TaxonGroup::dog, "dog", "dog"},
    GroupWords{TaxonGroup::cat, "cat", "cat"},
    GroupWords{TaxonGroup::bird, "bird", "bird"},
    GroupWords{TaxonGroup::other_mammal, "other_mammal", "mammal"},
    GroupWords{TaxonGroup::other, "other", "other animal"},
};

constexpr bool is_row_for_each_group() {
    for (std::size_t i = 0; i < group_words.size(); ++i) {
        if (group_words[i].group != static_cast<TaxonGroup>(i)) return false;
    }
    return group_words.back().group == TaxonGroup::other;
}
static_assert(is_row_for_each_group(), "the rows stand in the order of the enumeration");

const GroupWords& words_of(TaxonGroup group) { return group_words.at(static_cast<std::size_t>(group)); }

constexpr std::array known_kind_keys{"scientific", "common", "synonyms", "group", "flags"};
constexpr std::array known_trade_keys{"names", "kinds"};

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

/// Adds the texts of a list to `texts`; a key that is not there is an empty list.
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

/// Reads one [[taxon]] table.
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
        if (const auto group = text ? parse_group(*text) : std::nullopt) {
            {
                taxon.group = *group;
                return std::nullopt;
            }
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

std::string_view to_text(Understood how) {
    switch (how) {
        case Understood::name: return "name";
        case Understood::genus: return "genus";
        case Understood::trade_name: return "trade-name";
        case Understood::several: return "several";
        case Understood::unknown: return "unknown";
    }
    return {};
}

std::string_view to_text(TaxonGroup group) { return words_of(group).text; }
std::string_view describe(TaxonGroup group) { return words_of(group).name; }

std::optional<TaxonGroup> parse_group(std::string_view text) {
    const auto* const found = std::find_if(group_words.begin(), group_words.end(),
                                           [&](const GroupWords& words) { return words.text == text; });
    return found == group_words.end() ? std::nullopt : std::optional(found->group);
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
        auto taxon = TaxonReader(file.name, row).read();
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

std::optional<Taxon> Taxa::find(std::string_view text) const {
    if (const auto found = by_name_.find(key_of(text)); found != by_name_.end()) return taxa_[found->second];
    const Meaning meant = meaning(text);
    return meant.kinds.size() == 1 ? std::optional(*meant.kinds.front()) : std::nullopt;
}

Taxa::Meaning Taxa::meaning(std::string_view text) const {
    const std::string key = key_of(text);
    if (const auto found = trade_.find(key); found != trade_.end()) {
        Meaning meant{found->second.size() == 1 ? Understood::trade_name : Understood::several, {}};
        for (const std::size_t kind : found->second) meant.kinds.push_back(&taxa_[kind]);
        return meant;
    }
    if (const auto found = by_name_.find(key); found != by_name_.end())
        return {Understood::name, {&taxa_[found->second]}};
    if (const auto found = by_genus_.find(first_word(text)); found != by_genus_.end())
        return {Understood::genus, {&taxa_[found->second]}};
    return {};
}

const std::string& Taxa::plain_name(const Taxon& taxon) const {
    const auto is_plain = [&](const std::string& name) { return meaning(name).kinds.size() == 1; };
    const auto found = std::find_if(taxon.common.begin(), taxon.common.end(), is_plain);
    return found == taxon.common.end() ? taxon.scientific : *found;
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
    const auto add = [&](const std::string& name) {
        const bool is_new = std::find(names.begin(), names.end(), name) == names.end();
        if (is_new && names.size() < most) names.push_back(name);
    };
    if (const Meaning meant = meaning(text); meant.how == Understood::several) {
        for (const Taxon* const kind : meant.kinds) add(plain_name(*kind));
    }
    for (const auto& [distance, name] : near) add(name);
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
    const Meaning meant = meaning(text);
    for (const Taxon* const kind : meant.kinds) {
        const bool by_name = meant.how == Understood::name;
        add(by_name ? asked : key_of(plain_name(*kind)));
    }
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
