#include <array>

#include "words/en/sentences.h"

// What would raise the chance of clear (service/changes.def).
namespace mitefall::words::en {
namespace {

constexpr std::array change_sentences{
    Sentence{"have_spare_tubs", "keep {number:counted clean plain tub} ready for each round"},
    Sentence{"weigh_them", "weigh {who}, if each weighs {least} or more"},
    Sentence{"move_out_of_the_air", "move {who} to another room"},
    Sentence{"house_them_apart", "house {who} apart, in a clean tub"},
    Sentence{"empty_the_wood_into_tubs",
             "move the animals of {where} into clean plain tubs for the whole course"},
    Sentence{"all_of_these", "{changes}"},
    Sentence{"direction_to_spray", "a veterinarian's direction to spray {who}"},
    Sentence{"drug_by_mouth", "a veterinarian's {method}, once, for {number:counted animal}"},
};

}  // namespace

std::span<const Sentence> changes() { return change_sentences; }

}  // namespace mitefall::words::en
