#include "formats/text/damage.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/damage.h"
#include "formats/text/layout.h"

namespace mitefall::formats {

std::string damage_text(const std::vector<records::SetAside>& damage) {
    if (damage.empty()) return {};
    const std::size_t count = damage.size();
    std::string text =
        wrap(toned(Tone::grave, fmt::format("Damage: {} of this collection {} set aside and {} not count.",
                                            count == 1 ? "1 entry" : fmt::format("{} entries", count),
                                            count == 1 ? "is" : "are", count == 1 ? "does" : "do")),
             "", "  ");
    for (std::size_t i = 0; i < std::min(count, most_damage_told); ++i)
        text += wrap(damage[i].why.message(), "- ", "  ");
    if (count > most_damage_told)
        text += wrap(fmt::format("and {} more.", count - most_damage_told), "- ", "  ");
    return text;
}

}  // namespace mitefall::formats
