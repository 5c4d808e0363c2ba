#include "formats/text/show.h"

#include <fmt/format.h>

#include "units/text.h"

namespace mitefall::formats {

std::string show_band(const base::Band& band) {
    return fmt::format("{} (range {} to {})", units::show_chance(band.mean), units::show_chance(band.p10),
                       units::show_chance(band.p90));
}

}  // namespace mitefall::formats
