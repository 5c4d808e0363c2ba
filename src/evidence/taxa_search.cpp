#include <algorithm>
#include <set>
#include <utility>

#include "evidence/names_alike.h"
#include "evidence/taxa.h"

namespace mitefall::evidence {

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
