#include "formats/json/prevention.h"

#include <array>

#include "formats/json/parts.h"
#include "formats/json/statement.h"

namespace mitefall::formats {
namespace {

struct BandRow {
    const char* key;
    base::Band plan::Prevention::*chance;
};

/// Chances, and what each way adds to them.
constexpr std::array bands{
    BandRow{"clear_now", &plan::Prevention::clear_now},
    BandRow{"clear_there", &plan::Prevention::clear_there},
    BandRow{"finds", &plan::Prevention::finds},
    BandRow{"clear_if_clean", &plan::Prevention::clear_if_clean},
    BandRow{"nothing", &plan::Prevention::nothing},
    BandRow{"round", &plan::Prevention::round},
    BandRow{"look", &plan::Prevention::look},
    BandRow{"looks", &plan::Prevention::looks},
    BandRow{"round_gain", &plan::Prevention::round_gain},
    BandRow{"look_gain", &plan::Prevention::look_gain},
    BandRow{"looks_gain", &plan::Prevention::looks_gain},
};

}  // namespace

Json prevention_json(const plan::Prevention& prevention) {
    Json json;
    for (const auto& [key, chance] : bands) json[key] = band_json(prevention.*chance);
    json["looked_at"] = names(prevention.looked_at);
    json["one_round"] = told_json(prevention.one_round_told);
    json["advice"] = told_json(prevention.advice);
    return json;
}

}  // namespace mitefall::formats
