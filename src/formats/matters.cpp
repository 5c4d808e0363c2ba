#include "formats/matters.h"

namespace mitefall::formats {

ParameterLabel label_of(std::string_view key, const evidence::Tables& tables) {
    for (const auto& row : tables.rows()) {
        if (row.cited.key == key) return {std::string(row.cited.meaning), row.unit};
    }
    return {"How many mites there really were, within the range recorded at the sighting", "share"};
}

}  // namespace mitefall::formats
