#include "formats/json/damage.h"

#include <algorithm>

#include "formats/damage.h"

namespace mitefall::formats {

Json damage_json(const std::vector<records::SetAside>& damage) {
    Json rows = Json::array();
    for (std::size_t i = 0; i < std::min(damage.size(), most_damage_told); ++i) {
        Json row{{"entry", damage[i].entry}};
        row.update(error_json(damage[i].why));
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace mitefall::formats
