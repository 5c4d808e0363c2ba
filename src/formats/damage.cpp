#include "formats/damage.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/layout.h"

namespace mitefall::formats {
namespace {

constexpr std::size_t most_told = 20;

}  // namespace

std::string damage_text(const std::vector<records::SetAside>& damage) {
    if (damage.empty()) return {};
    const std::size_t count = damage.size();
    std::string text =
        wrap(toned(Tone::grave, fmt::format("Damage: {} of this collection {} set aside and {} not count.",
                                            count == 1 ? "1 entry" : fmt::format("{} entries", count),
                                            count == 1 ? "is" : "are", count == 1 ? "does" : "do")),
             "", "  ");
    for (std::size_t i = 0; i < std::min(count, most_told); ++i)
        text += wrap(damage[i].why.message(), "- ", "  ");
    if (count > most_told) text += wrap(fmt::format("and {} more.", count - most_told), "- ", "  ");
    return text;
}

Json damage_json(const std::vector<records::SetAside>& damage) {
    Json rows = Json::array();
    for (std::size_t i = 0; i < std::min(damage.size(), most_told); ++i) {
        Json row{{"entry", damage[i].entry}};
        row.update(error_json(damage[i].why));
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace mitefall::formats
