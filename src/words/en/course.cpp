#include <array>

#include "words/en/sentences.h"

// What a course does (plan/told.def).
namespace mitefall::words::en {
namespace {

constexpr std::array course_sentences{
    Sentence{"course", "{parts:listed}"},
    Sentence{"what_is_left", "what is left of it"},
    Sentence{"one_round", "1 round"},
    Sentence{"rounds_apart", "{rounds} rounds {days} days apart"},
    Sentence{"rounds_between", "{rounds} rounds, {least} to {most} days apart"},
    Sentence{"reach/chosen", "only the chosen enclosures"},
    Sentence{"reach/sighted", "only where mites were seen"},
    Sentence{"reach/sighted-rooms", "the whole room"},
    Sentence{"reach/exposed", "the whole room and every other exposed enclosure"},
    Sentence{"reach/everything", "every enclosure"},
    Sentence{"emptied_rooms", "with floor and racks of emptied rooms"},
    Sentence{"substrate_changed", "substrate changed each round"},
    Sentence{"substrate_left", "substrate left in"},
    Sentence{"clean_tubs", "clean tubs each round"},
    Sentence{"animals_treated", "animals {how:either}"},
    Sentence{"sprayed", "sprayed"},
    Sentence{"soaked", "soaked in plain water"},
    Sentence{"wiped", "wiped"},
    Sentence{"no_animal_treated", "no animal treated"},
    Sentence{"bedding_kept_damp", "bedding sprayed, paper kept damp with the spray"},
    Sentence{"bedding_left_to_dry", "bedding sprayed, paper left to dry"},
    Sentence{"no_bedding_sprayed", "no bedding sprayed"},
};

}  // namespace

std::span<const Sentence> course() { return course_sentences; }

}  // namespace mitefall::words::en
