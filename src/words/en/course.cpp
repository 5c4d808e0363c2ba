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
    Sentence{"wood_emptied", "wood emptied into treatment tubs"},
    Sentence{"animals_treated", "animals {how:either}"},
    Sentence{"sprayed", "sprayed"},
    Sentence{"soaked", "soaked in plain water"},
    Sentence{"wiped", "wiped"},
    Sentence{"no_animal_treated", "no animal treated"},
    Sentence{"heads_cleared", "heads and eyes gone over by hand"},
    Sentence{"bedding_kept_damp", "bedding sprayed, paper kept damp with the spray"},
    Sentence{"bedding_left_to_dry", "bedding sprayed, paper left to dry"},
    Sentence{"no_bedding_sprayed", "no bedding sprayed"},
    Sentence{"look_first",
             "Look before you spray: looking at every animal once a week for four weeks, and treating as "
             "soon as a "
             "mite is found, adds {looks} points to the chance that everything is clear (a look today alone "
             "{look}); "
             "one round of treatment adds {round}"},
    Sentence{"look_rather",
             "Look before you spray: a round of treatment adds {round} points to the chance that everything "
             "is clear, "
             "looking at every animal once a week for four weeks, and treating as soon as a mite is found, "
             "{looks} (a "
             "look today alone {look}); that little more is not worth its burden"},
    Sentence{
        "treat_first",
        "A round of treatment does more than looking: it adds {round} points to the chance that everything "
        "is "
        "clear; looking at every animal once a week for four weeks, and treating as soon as a mite is found, "
        "adds {looks} (a look today alone {look})"},
    Sentence{
        "neither_is_worth_it",
        "Nothing needs to be done: everything is clear already with a chance of {clear} in 100; looking once "
        "a "
        "week for four weeks would add {looks} points to it, a round of treatment {round}. The usual checks "
        "will do"},
};

}  // namespace

std::span<const Sentence> course() { return course_sentences; }

}  // namespace mitefall::words::en
