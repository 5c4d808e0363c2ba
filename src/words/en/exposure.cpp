#include <array>

#include "words/en/sentences.h"

// What the tracing says (exposure/paths.def).
namespace mitefall::words::en {
namespace {

constexpr std::array exposure_sentences{
    Sentence{"mites_seen_by", "Mites were seen in {where} by {day}"},
    Sentence{"brought_from_outside", "{what} on {day} may have brought something into {where}"},
    Sentence{"was_moved", "{who} was moved from {from} to {to} on {day}"},
    Sentence{"handled_after", "{who} was handled after {after} on {day}"},
    Sentence{"shared_a_bag", "{who} and {other} shared a bag on {day}"},
    Sentence{"used_in_both", "{item} used in {from} and then in {to} on {day}"},
    Sentence{"walked_within",
             "mites may have walked from {from} to {to}, in the same room, between {first} and {last}"},
    Sentence{"walked_between",
             "mites may have walked from {from} to {to}, in another room, between {first} and {last}"},
    Sentence{"came_from_outside", "{who} came from outside into {where} on {day}"},
    Sentence{"no_contact",
             "no contact on record from {first} to {last}; what was not written down is not known"},
    Sentence{"path", "{steps}"},
};

}  // namespace

std::span<const Sentence> exposure() { return exposure_sentences; }

}  // namespace mitefall::words::en
