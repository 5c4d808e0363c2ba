#include "formats/json/model_methods.h"

#include <fmt/format.h>

#include <string_view>

#include "records/method.h"

namespace mitefall::formats {
namespace {

using records::KillKeys;
using records::MethodRow;
using records::Paper;

/// "a, b" of "a" and "b"; nothing of nothing.
std::string chained(const std::string& list, const std::string& next, std::string_view by) {
    return list.empty() || next.empty() ? list + next : list + std::string(by) + next;
}

/// "residue-gone, kill mobile-nest, kill eggs"; empty without a figure.
std::string effect_of(const MethodRow& row) {
    if (!row.kills.days_in_blood.empty()) return "meal-kill for oral_days_* days";
    std::string effect = row.paper == Paper::renewed ? "residue-gone" : "";
    const auto add = [&](const KillKeys& keys, const char* reach) {
        if (!keys.sealed.empty()) effect = chained(effect, std::string("kill ") + reach, ", ");
    };
    add(row.kills.on_animal, "on-animal");
    add(row.kills.nest, "mobile-nest");
    add(row.kills.eggs, "eggs");
    return row.paper == Paper::sprayed ? effect + ", then residue" : effect;
}

/// "substrate_nest_*" where the material has a part in it.
std::string chance_of(const KillKeys& keys) {
    const std::string_view key = keys.sealed.text();
    if (key == keys.porous.text()) return std::string(key);
    const std::size_t material = key.rfind("sealed");
    if (material == std::string_view::npos) return fmt::format("{} ({} in wood)", key, keys.porous.text());
    return std::string(key.substr(0, material)) + "*";
}

}  // namespace

std::string effects_of_methods() {
    std::string told, methods, harmless, before;
    const auto close = [&] {
        if (!methods.empty()) told = chained(told, methods + ": " + before, "; ");
        methods.clear();
    };
    for (const MethodRow& row : records::method_rows) {
        const std::string effect = effect_of(row);
        if (effect.empty()) {
            harmless = chained(harmless, std::string(row.key), ", ");
            continue;
        }
        if (effect != before) close();
        before = effect;
        methods = chained(methods, std::string(row.key), ", ");
    }
    close();
    return told + "; " + harmless + ": no figure, taken to kill nothing.";
}

std::string chances_of_methods() {
    std::string told;
    for (const MethodRow& row : records::method_rows) {
        if (effect_of(row).empty() || row.is_spray) continue;
        std::string chances;
        for (const KillKeys& keys : {row.kills.on_animal, row.kills.nest, row.kills.eggs})
            chances = chained(chances, chance_of(keys), " and ");
        told = chained(told, std::string(row.key) + " " + chances, "; ");
    }
    return told + "; * is the material (sealed, porous).";
}

}  // namespace mitefall::formats
