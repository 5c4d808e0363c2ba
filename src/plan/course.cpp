#include "plan/course.h"

#include <fmt/format.h>

namespace mitefall::plan {

std::string_view to_text(Scope scope) {
    switch (scope) {
        case Scope::chosen: return "chosen";
        case Scope::sighted: return "sighted";
        case Scope::sighted_rooms: return "sighted-rooms";
        case Scope::exposed: return "exposed";
        case Scope::everything: return "everything";
    }
    return {};
}

std::string_view describe(Scope scope) {
    switch (scope) {
        case Scope::chosen: return "only the chosen enclosures";
        case Scope::sighted: return "only where mites were seen";
        case Scope::sighted_rooms: return "the whole room";
        case Scope::exposed: return "the whole room and every other exposed enclosure";
        case Scope::everything: return "every enclosure";
    }
    return {};
}

std::string describe(const Course& course) {
    const std::string rounds =
        course.rounds == 1 ? "1 round"
                           : fmt::format("{} rounds {} days apart", course.rounds, course.interval_days);
    return fmt::format("{}, {}{}, {}, {}{}", rounds, describe(course.scope),
                       course.treat_rooms ? ", with floor and racks of emptied rooms" : "",
                       course.change_substrate ? "substrate changed each round" : "substrate left in",
                       course.keep_damp ? "paper kept damp with the spray" : "paper left to dry",
                       course.soak_animals ? ", animals soaked in plain water, not sprayed" : "");
}

}  // namespace mitefall::plan
