#include "worklist/wording.h"

#include <fmt/format.h>

namespace mitefall::worklist {

using records::Method;

std::string sentence(Method method, const std::string& who, const std::string& where) {
    switch (method) {
        case Method::spray_animal:
            return fmt::format("Mist {} lightly from the neck back and spread it by hand", who);
        case Method::spray_bedding: return fmt::format("Spray paper and walls of {} until just wet", where);
        case Method::soak:
            return fmt::format(
                "Soak {} for 30 minutes in plain water of 28 to 30 C, chin resting above it, never alone",
                who);
        case Method::wipe: return fmt::format("Wipe {} down with a damp cloth from neck to tail", who);
        case Method::change_substrate:
            return fmt::format("Take everything out of {}, bag it, put fresh paper in", where);
        case Method::treat_room:
            return fmt::format("Treat floor, racks and walls of the emptied {} with permethrin", where);
        case Method::permethrin_empty:
            return fmt::format("Treat the emptied {} with permethrin, let it dry and air", where);
        case Method::oil_wipe: return fmt::format("Wipe a thin film of plain oil over {}, not the head", who);
        case Method::soap_wash: return fmt::format("Wash {} with a little mild soap and rinse it", who);
        case Method::heat_objects: return fmt::format("Heat the emptied {} and its objects", where);
        case Method::freeze_objects: return fmt::format("Freeze the objects of {}", where);
        case Method::desiccant_dust: return fmt::format("Dust the emptied {}, then take all dust out", where);
        case Method::predatory_mites: return fmt::format("Release the predatory mites into {}", where);
        case Method::fipronil_wipe:
        case Method::oral_afoxolaner:
        case Method::oral_fluralaner:
        case Method::injected_ivermectin:
            return fmt::format("Give {} what the veterinarian directed ({})", who, records::describe(method));
    }
    return {};
}

}  // namespace mitefall::worklist
