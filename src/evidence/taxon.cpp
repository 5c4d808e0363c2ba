#include "evidence/taxon.h"

#include <algorithm>
#include <array>

namespace mitefall::evidence {
namespace {

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

}  // namespace

std::string_view to_text(TaxonGroup group) { return words_of(group).text; }
std::string_view describe(TaxonGroup group) { return words_of(group).name; }

std::optional<TaxonGroup> parse_group(std::string_view text) {
    const auto* const found = std::find_if(group_words.begin(), group_words.end(),
                                           [&](const GroupWords& words) { return words.text == text; });
    return found == group_words.end() ? std::nullopt : std::optional(found->group);
}

}  // namespace mitefall::evidence
