#pragma once

#include <optional>
#include <string>
#include <string_view>

// Closed choices of the records. The text of each is part of the file format: never change one once
// published.
namespace mitefall::records {

enum class Material { sealed, porous };  ///< plastic or glass; wood, bare or cracked
enum class Substrate { paper, loose, none };
enum class ShedState {
    cloudy,
    shed,
    clear,  ///< no longer cloudy, and no shed was seen
};
enum class Condition { sick, thin, dehydrated, neonate, gravid, neurological, reacted };

/// How many mites were seen.
enum class SeenCount { none, one, few, many, masses };  ///< 0; 1; 2-10; 11-50; more
enum class SeenWhere { on_animal, in_water, on_hands, on_paper };
enum class CheckMethod { look_over, soak, wipe, paper_trap };

/// Everything that can be done against mites to an animal, an enclosure or a room.
enum class Method {
    spray_animal,         ///< ivermectin spray misted on the animal
    spray_bedding,        ///< ivermectin spray on paper and walls of the enclosure
    soak,                 ///< 30 minutes in lukewarm water
    wipe,                 ///< wiped down with a damp cloth
    change_substrate,     ///< out with everything, paper in
    treat_room,           ///< floor, racks and walls of a room, permethrin, no animal's enclosure
    permethrin_empty,     ///< permethrin on an emptied enclosure, dried and aired
    fipronil_wipe,        ///< fipronil 0.25 % wiped on
    oral_afoxolaner,      ///< prescription only, recorded as a veterinarian's direction
    oral_fluralaner,      ///< prescription only, recorded as a veterinarian's direction
    injected_ivermectin,  ///< prescription only, recorded as a veterinarian's direction
    oil_wipe,             ///< a thin film of plain oil wiped on
    soap_wash,            ///< washed with mild soap and rinsed
    heat_objects,         ///< the emptied enclosure or its objects in dry heat
    freeze_objects,       ///< objects in a freezer
    desiccant_dust,       ///< drying dust in the emptied enclosure, taken out again before the animal returns
    predatory_mites       ///< mites that eat mites, released into the substrate
};

[[nodiscard]] std::string_view to_text(Material value);
[[nodiscard]] std::string_view to_text(Substrate value);
[[nodiscard]] std::string_view to_text(ShedState value);
[[nodiscard]] std::string_view to_text(Condition value);
[[nodiscard]] std::string_view to_text(SeenCount value);  ///< "none", "1", "2-10", "11-50", "more"
[[nodiscard]] std::string_view to_text(SeenWhere value);
[[nodiscard]] std::string_view to_text(CheckMethod value);
[[nodiscard]] std::string_view to_text(Method value);   ///< "spray-animal"
[[nodiscard]] std::string_view describe(Method value);  ///< "ivermectin spray on the animal"

/// The value whose text is `text`, if there is one. E is one of the enumerations above.
template <class E>
[[nodiscard]] std::optional<E> from_text(std::string_view text);

/// All texts of E, comma separated, for error messages.
template <class E>
[[nodiscard]] std::string list_texts();

}  // namespace mitefall::records
