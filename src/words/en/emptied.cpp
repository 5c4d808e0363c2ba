#include <array>

#include "words/en/sentences.h"

// An emptied enclosure (service/emptied.def).
namespace mitefall::words::en {
namespace {

constexpr std::array emptied_sentences{
    Sentence{"left_as_it_is", "left where it stands"},
    Sentence{"set_apart", "set apart, where no animal is and no mite walks in"},
    Sentence{"set_apart_warm", "set apart and kept at {temperature}, day and night"},
    Sentence{"set_apart_dry", "set apart and kept dry, at {percent} % humidity"},
    Sentence{"set_apart_warm_and_dry",
             "set apart, kept at {temperature}, day and night, and dry, at {percent} % humidity"},
    Sentence{"heated_through",
             "what can be held at {temperature} all through for {time:hours} hours is rid of every stage"},
    Sentence{"frozen_through", "what fits into a freezer of {temperature} is, after {time}"},
};

}  // namespace

std::span<const Sentence> emptied() { return emptied_sentences; }

}  // namespace mitefall::words::en
