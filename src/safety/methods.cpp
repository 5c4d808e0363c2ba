#include "safety/methods.h"

namespace mitefall::safety {

using records::Method;

Agent agent_of(Method method) {
    switch (method) {
        case Method::spray_animal:
        case Method::spray_bedding:
        case Method::injected_ivermectin: return Agent::ivermectin;
        case Method::treat_room:
        case Method::permethrin_empty: return Agent::pyrethroid;
        case Method::fipronil_wipe: return Agent::fipronil;
        case Method::oral_afoxolaner:
        case Method::oral_fluralaner: return Agent::isoxazoline;
        case Method::soak:
        case Method::wipe:
        case Method::change_substrate:
        case Method::oil_wipe:
        case Method::soap_wash:
        case Method::heat_objects:
        case Method::freeze_objects:
        case Method::desiccant_dust:
        case Method::predatory_mites: return Agent::none;
    }
    return Agent::none;
}

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

Target target_of(Method method) {
    switch (method) {
        case Method::spray_animal:
        case Method::soak:
        case Method::wipe:
        case Method::fipronil_wipe:
        case Method::oral_afoxolaner:
        case Method::oral_fluralaner:
        case Method::injected_ivermectin:
        case Method::oil_wipe:
        case Method::soap_wash: return Target::animal;
        case Method::spray_bedding:
        case Method::change_substrate:
        case Method::heat_objects:
        case Method::freeze_objects:
        case Method::desiccant_dust:
        case Method::predatory_mites:
        case Method::permethrin_empty: return Target::enclosure;
        case Method::treat_room: return Target::room;
    }
    return Target::animal;
}

bool is_ivermectin_spray(Method method) {
    return method == Method::spray_animal || method == Method::spray_bedding;
}

bool is_on_animal_acaricide(Method method) {
    return target_of(method) == Target::animal && agent_of(method) != Agent::none;
}

bool exposes_animal(Method method) {
    return is_on_animal_acaricide(method) || method == Method::spray_bedding;
}

bool touches_skin(Method method) {
    // An animal lies on the paper that was sprayed.
    return is_by_hand(method) || method == Method::spray_bedding;
}

bool is_by_hand(Method method) {
    switch (method) {
        case Method::spray_animal:
        case Method::soak:
        case Method::wipe:
        case Method::fipronil_wipe:
        case Method::oil_wipe:
        case Method::soap_wash: return true;
        case Method::spray_bedding:
        case Method::change_substrate:
        case Method::treat_room:
        case Method::permethrin_empty:
        case Method::oral_afoxolaner:
        case Method::oral_fluralaner:
        case Method::injected_ivermectin:
        case Method::heat_objects:
        case Method::freeze_objects:
        case Method::desiccant_dust:
        case Method::predatory_mites: return false;
    }
    return true;
}

bool leaves_animal_alone(Method method) {
    return method == Method::change_substrate || method == Method::heat_objects ||
           method == Method::freeze_objects;
}

bool kills_predators(Method method) {
    return agent_of(method) != Agent::none || method == Method::desiccant_dust;
}

bool is_prescription_only(Method method) {
    return method == Method::oral_afoxolaner || method == Method::oral_fluralaner ||
           method == Method::injected_ivermectin;
}

}  // namespace mitefall::safety
