#include <array>

#include "words/en/sentences.h"

// What is asked before facts go on record (service/asked.def).
namespace mitefall::words::en {
namespace {

constexpr std::array asked_sentences{
    Sentence{"second_of_its_name", "An animal called {name} is here already. This would be a second one"},
    Sentence{"goes_between", "{who}: {from}, {to}"},
    Sentence{"leaves_from", "{who}: {from}"},
    Sentence{"mites_were_seen_in", "mites were seen in {where}"},
    Sentence{"mites_may_have_reached", "mites may have reached {where}"},
    Sentence{"no_mites_are_known_in", "no mites are known in {where}"},
    Sentence{"can_carry_them_along", "It can carry them along"},
    Sentence{"can_catch_them_there", "It can catch them there"},
    Sentence{"goes_to_others", "It is in quarantine, and goes to animals that are not"},
    Sentence{"can_take_them_to_others", "It can take them along to whoever gets it"},
    Sentence{"watch_not_over",
             "Mites were seen in the room of {who} on {day}, and the watch there is not over"},
    Sentence{"not_settled_what_it_brought", "It is in quarantine: whether it brought mites is not settled"},
    Sentence{"no_dish",
             "{who} has had no water dish, and {where} has none either: offer it a drink, and put the dish "
             "back {when}"},
    Sentence{"no_dish_since",
             "{who} has had no water dish since {since}, and {where} has none either: offer it a drink, and "
             "put the dish back {when}"},
    Sentence{"by_then", "by {day}"},
    Sentence{"by_today", "today"},
    Sentence{"pairing_waits", "To pair them is a contact too: wait until both places are clear of mites"},
    Sentence{
        "never_treated_prey",
        "Never feed {who} prey that was treated for mites of its own: snakes have died of it within three "
        "days. If it has eaten it, call a veterinarian"},
    Sentence{"mites_seen_in_room_of", "Mites were seen in the room of {who} on {day}"},
    Sentence{"quarantine_usually_lasts", "The usual quarantine of {who} lasts until {until}"},
    Sentence{"chance_not_worked_out", "How likely it is that {who} brought no mites is not worked out"},
    Sentence{"chance_below", "The chance that {who} brought no mites is below {percent} %"},
    Sentence{"still_in_quarantine",
             "{who} is still in quarantine: it is not known whether it brought snake mites"},
    Sentence{"still_watched",
             "{who} comes from a room that is still watched after snake mites were seen in it"},
    Sentence{"from_where_mites_were_seen", "{who} comes from a place where snake mites were seen"},
    Sentence{"from_where_mites_may_be", "{who} comes from a place where snake mites may be"},
    Sentence{"can_be_on_it_unseen", "Mites can be on it even if none is to be seen"},
    Sentence{"keep_it_alone",
             "Keep it alone in a room without other reptiles, on white paper, for at least {days} days"},
    Sentence{"look_every_week",
             "Look for mites every week: under the chin, around the eyes, in the water dish"},
    Sentence{"wash_after_every_visit", "Wash your hands and change clothes after every visit"},
    Sentence{"burn_the_bag", "Burn or throw away the bag it came in, or wash it hot"},
    Sentence{"no_treatment_on_record", "No treatment of it is on record"},
    Sentence{"last_treatment_was", "Last treatment on record: {method}, {day}"},
    Sentence{"ask_before_giving_more", "Ask a veterinarian before giving it anything more"},
};

}  // namespace

std::span<const Sentence> asked() { return asked_sentences; }

}  // namespace mitefall::words::en
