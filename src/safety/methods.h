#pragma once

#include <array>
#include <string_view>

#include "records/vocabulary.h"

// What the safety rules need to know about each method.
namespace mitefall::safety {

/// Class of the acaricide; none for what works without one: water, oil, soap, heat, cold, dust, mites.
enum class Agent { none, ivermectin, pyrethroid, fipronil, isoxazoline };

enum class Target { animal, enclosure, room };

inline constexpr std::array all_methods{records::Method::spray_animal,
                                        records::Method::spray_bedding,
                                        records::Method::soak,
                                        records::Method::wipe,
                                        records::Method::change_substrate,
                                        records::Method::treat_room,
                                        records::Method::permethrin_empty,
                                        records::Method::fipronil_wipe,
                                        records::Method::oral_afoxolaner,
                                        records::Method::oral_fluralaner,
                                        records::Method::injected_ivermectin,
                                        records::Method::oil_wipe,
                                        records::Method::soap_wash,
                                        records::Method::heat_objects,
                                        records::Method::freeze_objects,
                                        records::Method::desiccant_dust,
                                        records::Method::predatory_mites};

[[nodiscard]] Agent agent_of(records::Method method);
[[nodiscard]] std::string_view name_of(Agent agent);
[[nodiscard]] Target target_of(records::Method method);

/// Ivermectin that gets into the air of the room.
[[nodiscard]] bool is_ivermectin_spray(records::Method method);

/// An acaricide put on or into the animal.
[[nodiscard]] bool is_on_animal_acaricide(records::Method method);

/// An acaricide the animal takes up: on it, in it, or in the paper it lies on.
[[nodiscard]] bool exposes_animal(records::Method method);

/// Put on the skin or lying under it: what a shed, or another such treatment, has to do with.
[[nodiscard]] bool touches_skin(records::Method method);

/// Done with the animal in the hand.
[[nodiscard]] bool is_by_hand(records::Method method);

/// The animal is elsewhere and comes back to what it knew: no kind and no condition speaks against it.
[[nodiscard]] bool leaves_animal_alone(records::Method method);

/// What would kill predatory mites in the enclosure.
[[nodiscard]] bool kills_predators(records::Method method);

[[nodiscard]] bool is_prescription_only(records::Method method);

}  // namespace mitefall::safety
