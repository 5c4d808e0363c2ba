#include <array>

#include "words/en/sentences.h"

// What is told once mites are gone, or were never there (clearance/after.def).
namespace mitefall::words::en {
namespace {

constexpr std::array after_sentences{
    Sentence{"test_inclusion_body",
             "Inclusion body disease (boas, pythons): PCR of blood and of a throat swab, repeated"},
    Sentence{"test_septicaemia", "Blood poisoning by bacteria: blood count and culture"},
    Sentence{"test_blood_parasites", "Parasites in the blood: a blood smear"},
    Sentence{"test_serpentovirus", "Serpentovirus (airways, pythons above all): PCR of a throat swab"},
    Sentence{"test_ferlavirus", "Ferlavirus (airways, nerves): PCR of swabs from throat and cloaca"},
    Sentence{"test_cryptosporidium",
             "Cryptosporidium (stomach, gut): PCR of stool or of a stomach wash, repeated"},
    Sentence{"test_skin_fungus", "Skin fungus (Ophidiomyces): PCR and biopsy of changed scales"},
    Sentence{"test_worms", "Worms and other guests of the gut: stool under the microscope, repeated"},
    Sentence{
        "keep_newcomers_apart",
        "New animals: {days} days in a room of their own, on white paper, worked on last, looked over every "
        "week"},
    Sentence{
        "keep_visitors_off",
        "Visitors with reptiles, shows, shops: washed hands, other clothes, no animal held, bags stay out"},
    Sentence{"keep_things_out",
             "Things that come in: washed above 50 C, 45 C for 48 hours, or the freezer for 7 days; wood and "
             "second-hand tubs too"},
    Sentence{"keep_looking",
             "Folded white paper overnight in every enclosure once a month, and a look at every "
             "animal when it is in hand"},
    Sentence{"bites_on_people",
             "Itching spots on people: snake mites bite them and do not live on them. Shower, clothes off "
             "and washed "
             "hot; a physician for swelling, fever or a rash that spreads"},
};

}  // namespace

std::span<const Sentence> after() { return after_sentences; }

}  // namespace mitefall::words::en
