#include "evidence/ingredients.h"

#include <algorithm>
#include <array>
#include <utility>

#include "evidence/names_alike.h"
#include "evidence/taxon_reader.h"

namespace mitefall::evidence {
namespace {

using base::Error;
using base::fail;
using base::Result;

constexpr std::array known_ingredient_keys{"name", "also", "class"};

Result<Ingredient> read_ingredient(const TomlRow& row) {
    if (const auto unknown = row.refuse_unknown_keys(known_ingredient_keys)) return fail(*unknown);
    Ingredient ingredient;
    ingredient.name = row.table()["name"].value_or(std::string());
    if (key_of(ingredient.name).empty()) return fail(row.wrong("name", "must be a text with letters"));
    const auto kind = base::from_text<IngredientClass>(row.table()["class"].value_or(std::string()));
    if (!kind) return fail(row.wrong("class", "there is no such class"));
    ingredient.kind = *kind;
    if (auto fault = read_texts(row, "also", ingredient.also)) return fail(*fault);
    return ingredient;
}

}  // namespace

std::optional<std::string> Ingredients::add(Ingredient ingredient) {
    std::vector<std::string> names{ingredient.name};
    names.insert(names.end(), ingredient.also.begin(), ingredient.also.end());
    for (const std::string& name : names) {
        if (!by_name_.emplace(key_of(name), ingredients_.size()).second) return name;
    }
    ingredients_.push_back(std::move(ingredient));
    return std::nullopt;
}

Result<Ingredients> Ingredients::load(std::span<const TableText> files) {
    Ingredients all;
    for (const TableText& file : files) {
        const auto table = parse_toml(file);
        if (!table) return fail(table.error());
        for (const auto& [section, node] : *table) {
            const toml::array* const rows = node.as_array();
            if (section.str() != "ingredient" || rows == nullptr || !rows->is_array_of_tables())
                return fail(damaged(file.name, node.source(), section.str(),
                                    "only [[ingredient]] tables belong here"));
            for (const toml::node& row : *rows) {
                auto ingredient = read_ingredient(TomlRow(file.name, *row.as_table()));
                if (!ingredient) return fail(ingredient.error());
                if (const auto taken = all.add(std::move(*ingredient)))
                    return fail(
                        damaged(file.name, row.source(), "name", "the name \"" + *taken + "\" is taken"));
            }
        }
    }
    return all;
}

Result<Ingredients> Ingredients::load_embedded() { return load(embedded_texts("data/ingredients/")); }

const Ingredient* Ingredients::find(std::string_view text) const {
    const auto found = by_name_.find(key_of(text));
    return found == by_name_.end() ? nullptr : &ingredients_[found->second];
}

std::vector<std::string> Ingredients::suggest(std::string_view text) const {
    constexpr std::size_t most = 3;
    const std::string asked = key_of(text);
    std::vector<std::pair<std::size_t, std::string>> near;
    for (const auto& [key, index] : by_name_) {
        if (const auto distance = unlikeness(asked, key); distance && !asked.empty())
            near.emplace_back(*distance, ingredients_[index].name);
    }
    std::sort(near.begin(), near.end());
    std::vector<std::string> names;
    for (const auto& [distance, name] : near) {
        const bool is_new = std::find(names.begin(), names.end(), name) == names.end();
        if (is_new && names.size() < most) names.push_back(name);
    }
    return names;
}

}  // namespace mitefall::evidence
