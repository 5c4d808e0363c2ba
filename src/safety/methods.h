#pragma once

#include <string_view>

#include "records/method.h"

// What the safety rules ask about a method, answered by its row.
namespace mitefall::safety {

using records::Agent;
using records::Target;

[[nodiscard]] std::string_view name_of(Agent agent);
[[nodiscard]] inline Agent agent_of(records::Method method) { return records::row_of(method).agent; }
[[nodiscard]] inline Target target_of(records::Method method) { return records::row_of(method).target; }

/// Ivermectin that gets into the air of the room.
[[nodiscard]] inline bool is_ivermectin_spray(records::Method method) {
    return records::row_of(method).is_spray && agent_of(method) == Agent::ivermectin;
}

/// An acaricide put on or into the animal.
[[nodiscard]] bool is_on_animal_acaricide(records::Method method);

/// An acaricide the animal takes up: on it, in it, or in the paper it lies on.
[[nodiscard]] bool exposes_animal(records::Method method);

/// Put on the skin or lying under it: what a shed, or another such treatment, has to do with.
[[nodiscard]] bool touches_skin(records::Method method);

/// Done with the animal in the hand.
[[nodiscard]] inline bool is_by_hand(records::Method method) {
    return records::row_of(method).meets == records::Meets::in_hand;
}

/// Swallowed or injected: a veterinarian gives it.
[[nodiscard]] inline bool is_taken_in(records::Method method) {
    return records::row_of(method).meets == records::Meets::inside;
}

/// The animal is elsewhere and comes back to what it knew: no kind and no condition speaks against it.
[[nodiscard]] inline bool leaves_animal_alone(records::Method method) {
    return records::row_of(method).meets == records::Meets::nothing;
}

/// The animal lives in something else afterwards: whether it can is asked by a gate of its own.
[[nodiscard]] inline bool houses_anew(records::Method method) {
    return records::row_of(method).meets == records::Meets::housed;
}

/// What an animal with a meal inside must not go through.
[[nodiscard]] inline bool disturbs_meal(records::Method method) {
    return touches_skin(method) || houses_anew(method);
}

/// What would kill predatory mites in the enclosure.
[[nodiscard]] bool kills_predators(records::Method method);

[[nodiscard]] inline bool is_prescription_only(records::Method method) {
    return records::row_of(method).on_prescription;
}

}  // namespace mitefall::safety
