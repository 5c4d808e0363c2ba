#pragma once

#include "evidence/key.h"
#include "records/vocabulary.h"

// Everything that can be done against mites, each method once. What the rest of the program asks about a
// method, it asks its row.
namespace mitefall::records {

enum class Method {
    spray_animal,
    spray_bedding,
    soak,
    wipe,
    clear_head,
    change_substrate,
    fresh_tub,
    treat_room,
    permethrin_empty,
    fipronil_wipe,
    oral_afoxolaner,
    oral_fluralaner,
    injected_ivermectin,
    oil_wipe,
    soap_wash,
    heat_objects,
    freeze_objects,
    desiccant_dust,
    predatory_mites,
};

/// What it is done to. An enclosure's objects belong to it.
enum class Target { animal, enclosure, room };

/// Class of the acaricide; none for what works without one: water, oil, soap, heat, cold, dust, mites.
enum class Agent { none, ivermectin, pyrethroid, fipronil, isoxazoline };

/// How the animal meets it.
enum class Meets {
    in_hand,  ///< it is held and treated on the skin
    inside,   ///< swallowed or injected
    lies_on,  ///< it lies on what was treated
    around,   ///< it comes back to what was treated
    housed,   ///< it is carried into something else and lives there
    nothing,  ///< it comes back to what it knew: no kind and no condition speaks against it
};

/// Where a list of methods for people has it.
enum class Shelf {
    usual,
    home,        ///< what people do as well; little is known of it
    veterinary,  ///< a veterinarian directs it
};

/// What it does to the paper of an enclosure, and to what an earlier spray left on it.
enum class Paper { as_it_is, renewed, sprayed };

/// Evidence keys of the chance to kill each mite reached. Empty: no figure, taken to kill none.
struct KillKeys {
    evidence::ShareKey sealed;  ///< in plastic or glass, and on animals
    evidence::ShareKey porous;
    evidence::ShareKey home_sealed = {};  ///< at the strength of home recipes; empty: no strength matters
    evidence::ShareKey home_porous = {};
};
constexpr KillKeys everywhere(evidence::ShareKey key) { return {key, key}; }

/// What is known of how it kills, by where the mites are.
struct Kills {
    KillKeys on_animal = {};
    KillKeys nest = {};  ///< those that move about off the animal
    KillKeys eggs = {};
    evidence::TimeKey days_in_blood = {};  ///< evidence key; each meal of them kills as on the animal
    [[nodiscard]] constexpr bool any() const {
        return !on_animal.sealed.empty() || !nest.sealed.empty() || !eggs.sealed.empty();
    }
};

struct MethodRow {
    Method method;
    std::string_view key;   ///< in files and answers
    std::string_view name;  ///< "ivermectin spray on the animal"
    Target target;
    Meets meets;
    Shelf shelf;
    Agent agent = Agent::none;
    bool is_spray = false;         ///< a mix of some strength, misted: it gets into the air of the room
    bool on_prescription = false;  ///< recorded as a veterinarian's direction
    bool kills_predators = false;  ///< beside every acaricide: it kills mites that eat mites
    bool is_planned = false;       ///< a course may be made of it
    Paper paper = Paper::as_it_is;
    Kills kills = {};
};

inline constexpr std::array method_rows{
    MethodRow{.method = Method::spray_animal,
              .key = "spray-animal",
              .name = "ivermectin spray on the animal",
              .target = Target::animal,
              .meets = Meets::in_hand,
              .shelf = Shelf::usual,
              .agent = Agent::ivermectin,
              .is_spray = true,
              .is_planned = true,
              .kills = {.on_animal = {"kill_spray_on_animal_published", "kill_spray_on_animal_published",
                                      "kill_spray_on_animal_home", "kill_spray_on_animal_home"}}},
    MethodRow{.method = Method::spray_bedding,
              .key = "spray-bedding",
              .name = "ivermectin spray on the bedding and walls",
              .target = Target::enclosure,
              .meets = Meets::lies_on,
              .shelf = Shelf::usual,
              .agent = Agent::ivermectin,
              .is_spray = true,
              .is_planned = true,
              .paper = Paper::sprayed,
              .kills = {.nest = {"kill_spray_nest_published_sealed", "kill_spray_nest_published_porous",
                                 "kill_spray_nest_home_sealed", "kill_spray_nest_home_porous"}}},
    MethodRow{.method = Method::soak,
              .key = "soak",
              .name = "30 minutes' soak in lukewarm water",
              .target = Target::animal,
              .meets = Meets::in_hand,
              .shelf = Shelf::usual,
              .is_planned = true,
              .kills = {.on_animal = everywhere("kill_soak")}},
    MethodRow{.method = Method::wipe,
              .key = "wipe",
              .name = "wiping down with a damp cloth",
              .target = Target::animal,
              .meets = Meets::in_hand,
              .shelf = Shelf::usual,
              .is_planned = true,
              .kills = {.on_animal = everywhere("kill_wipe")}},
    MethodRow{.method = Method::clear_head,
              .key = "clear-head",
              .name = "head and eyes gone over with a cotton bud",
              .target = Target::animal,
              .meets = Meets::in_hand,
              .shelf = Shelf::usual,
              .is_planned = true,
              .kills = {.on_animal = everywhere("clear_head_taken")}},
    MethodRow{.method = Method::change_substrate,
              .key = "change-substrate",
              .name = "change of substrate to paper",
              .target = Target::enclosure,
              .meets = Meets::nothing,
              .shelf = Shelf::usual,
              .is_planned = true,
              .paper = Paper::renewed,
              .kills = {.nest = {"substrate_nest_sealed", "substrate_nest_porous"},
                        .eggs = {"substrate_eggs_sealed", "substrate_eggs_porous"}}},
    MethodRow{.method = Method::fresh_tub,
              .key = "fresh-tub",
              .name = "clean plain tub, the old one left behind",
              .target = Target::enclosure,
              .meets = Meets::housed,
              .shelf = Shelf::usual,
              .is_planned = true,
              .paper = Paper::renewed,
              .kills = {.nest = {"fresh_tub_nest", "substrate_nest_porous"},
                        .eggs = {"fresh_tub_eggs", "substrate_eggs_porous"}}},
    MethodRow{.method = Method::treat_room,
              .key = "treat-room",
              .name = "permethrin on floor, racks and walls of the room",
              .target = Target::room,
              .meets = Meets::around,
              .shelf = Shelf::usual,
              .agent = Agent::pyrethroid,
              .is_planned = true,
              .kills = {.nest = everywhere("kill_room_treatment")}},
    MethodRow{.method = Method::permethrin_empty,
              .key = "permethrin-empty",
              .name = "permethrin on the emptied enclosure",
              .target = Target::enclosure,
              .meets = Meets::around,
              .shelf = Shelf::usual,
              .agent = Agent::pyrethroid,
              .kills = {.nest = {"kill_permethrin_nest_sealed", "kill_permethrin_nest_porous"}}},
    MethodRow{.method = Method::fipronil_wipe,
              .key = "fipronil-wipe",
              .name = "fipronil wiped on the animal",  // 0.25 %
              .target = Target::animal,
              .meets = Meets::in_hand,
              .shelf = Shelf::veterinary,
              .agent = Agent::fipronil},
    MethodRow{
        .method = Method::oral_afoxolaner,
        .key = "oral-afoxolaner",
        .name = "afoxolaner by mouth",
        .target = Target::animal,
        .meets = Meets::inside,
        .shelf = Shelf::veterinary,
        .agent = Agent::isoxazoline,
        .on_prescription = true,
        .kills = {.on_animal = everywhere("oral_kill_per_meal"), .days_in_blood = "oral_days_afoxolaner"}},
    MethodRow{
        .method = Method::oral_fluralaner,
        .key = "oral-fluralaner",
        .name = "fluralaner by mouth",
        .target = Target::animal,
        .meets = Meets::inside,
        .shelf = Shelf::veterinary,
        .agent = Agent::isoxazoline,
        .on_prescription = true,
        .kills = {.on_animal = everywhere("oral_kill_per_meal"), .days_in_blood = "oral_days_fluralaner"}},
    MethodRow{.method = Method::injected_ivermectin,
              .key = "injected-ivermectin",
              .name = "ivermectin by injection",
              .target = Target::animal,
              .meets = Meets::inside,
              .shelf = Shelf::veterinary,
              .agent = Agent::ivermectin,
              .on_prescription = true},
    MethodRow{.method = Method::oil_wipe,
              .key = "oil-wipe",
              .name = "plain oil wiped on the animal",
              .target = Target::animal,
              .meets = Meets::in_hand,
              .shelf = Shelf::home},
    MethodRow{.method = Method::soap_wash,
              .key = "soap-wash",
              .name = "wash with mild soap",
              .target = Target::animal,
              .meets = Meets::in_hand,
              .shelf = Shelf::home},
    MethodRow{.method = Method::heat_objects,
              .key = "heat-objects",
              .name = "dry heat for the emptied enclosure and its objects",
              .target = Target::enclosure,
              .meets = Meets::nothing,
              .shelf = Shelf::home},
    MethodRow{.method = Method::freeze_objects,
              .key = "freeze-objects",
              .name = "freezer for hides, bowls and other objects",
              .target = Target::enclosure,
              .meets = Meets::nothing,
              .shelf = Shelf::home},
    MethodRow{.method = Method::desiccant_dust,
              .key = "desiccant-dust",
              .name = "drying dust in the emptied enclosure",
              .target = Target::enclosure,
              .meets = Meets::around,
              .shelf = Shelf::home,
              .kills_predators = true},
    MethodRow{.method = Method::predatory_mites,
              .key = "predatory-mites",
              .name = "predatory mites in the substrate",
              .target = Target::enclosure,
              .meets = Meets::around,
              .shelf = Shelf::home},
};

static_assert(base::in_order(method_rows, &MethodRow::method));

[[nodiscard]] constexpr auto vocabulary_of(Method) {
    return base::vocabulary("method", method_rows, &MethodRow::method, &MethodRow::key);
}

/// Throws ContractViolation for what is no method.
[[nodiscard]] constexpr const MethodRow& row_of(Method method) { return base::row_in(method_rows, method); }

/// "ivermectin spray on the animal"
[[nodiscard]] constexpr std::string_view describe(Method method) { return row_of(method).name; }

}  // namespace mitefall::records
