#include "safety/methods.h"

namespace mitefall::safety {

using records::Meets;
using records::Method;
using records::row_of;

std::string_view name_of(Agent agent) {
    switch (agent) {
        case Agent::none: return "no acaricide";
        case Agent::ivermectin: return "ivermectin";
        case Agent::pyrethroid: return "permethrin";
        case Agent::fipronil: return "fipronil";
        case Agent::isoxazoline: return "an isoxazoline";
    }
    return {};
}

bool is_on_animal_acaricide(Method method) {
    return target_of(method) == Target::animal && agent_of(method) != Agent::none;
}

bool exposes_animal(Method method) {
    const bool lies_in_it = row_of(method).meets == Meets::lies_on && agent_of(method) != Agent::none;
    return is_on_animal_acaricide(method) || lies_in_it;
}

bool touches_skin(Method method) { return is_by_hand(method) || row_of(method).meets == Meets::lies_on; }

bool kills_predators(Method method) {
    return agent_of(method) != Agent::none || row_of(method).kills_predators;
}

}  // namespace mitefall::safety
