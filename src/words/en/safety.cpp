#include <array>

#include "words/en/sentences.h"

// What the safety check says (safety/rules.def).
namespace mitefall::words::en {

namespace {

constexpr std::array safety_sentences{
    // On record, and cannot be counted
    Sentence{"entry_set_aside",
             "entry {entry} is damaged and set aside: it may say why this must not be done"},
    Sentence{"put_entry_right", "put entry {entry} right (record ... --corrects {entry}) or withdraw it"},

    // Kinds of animal
    Sentence{"species_missing", "the species is not on file"},
    Sentence{"species_unknown", "the species \"{written}\" is not known here"},
    Sentence{"enter_species",
             "enter the species; for a snake that is not in the list write \"unlisted snake\" and ask a "
             "veterinarian"},
    Sentence{"enter_species_like",
             "did you mean {names:quoted}? enter the species; for a snake that is not in the list write "
             "\"unlisted snake\" and ask a veterinarian"},
    Sentence{"no_ivermectin_for_kind",
             "a {kind} must not be given ivermectin in any form: tortoises were lamed by 0.025-0.05 mg/kg "
             "and died from 0.3 mg/kg"},
    Sentence{"no_acaricide_for_kind", "a {kind} must not be given acaricides"},
    Sentence{"not_a_snake", "a {kind} is not a snake: these figures are for snakes"},
    Sentence{"gentler_methods", "use gentler methods (soak, wipe, paper changes) and ask a veterinarian"},
    Sentence{"snake_not_named", "the species of this snake is not named; some snakes do not bear acaricides"},
    Sentence{"name_species_or_vet", "name the species or ask a veterinarian"},
    Sentence{"perhaps_venomous", "the species of this snake is not named; it may be venomous"},
    Sentence{"name_species_meanwhile",
             "name the species; until then look by a paper trap or through the glass"},
    Sentence{"venomous", "it is venomous: nothing is done to it by hand from a list"},
    Sentence{"shift_box",
             "change the bedding with the animal locked in a shift box; for more, a veterinarian who treats "
             "venomous snakes"},
    Sentence{"not_for_kind",
             "soaking, washing and wiping are meant for snakes and lizards, not for a {kind}"},
    Sentence{
        "head_of_other_kind",
        "going over head and eyes with a cotton bud is meant for snakes, whose eyes have no lids, not for "
        "a {kind}"},
    Sentence{"effect_not_known", "what {method} does to a {kind} is not known"},
    Sentence{"paper_and_vet", "change the bedding to paper and ask a veterinarian"},
    Sentence{"venomous_handling",
             "Venomous: trained handler, second person present, animal locked in a shift box first"},
    Sentence{"perhaps_venomous_handling",
             "Its kind is not named and may be venomous: nothing by hand until it is named, or a "
             "veterinarian directs it"},
    Sentence{"very_long_handling", "Adults of its kind are often longer than 2.5 m: two people, never alone"},

    // Weight
    Sentence{"no_weight", "no weight is on file"},
    Sentence{"weight_too_old", "the weight of {weighed} is too old: weights count for {valid}",
             "the weight is too old: weights count for {valid}", "weighed {weighed}"},
    Sentence{"weigh_it", "weigh it"},
    Sentence{"too_light_to_spray", "it weighs {weight}; spray on the animal needs at least {least}",
             "spray on the animal needs at least {least}", "{weight}"},
    Sentence{"bedding_with_animal_out", "spray the bedding only, with the animal out"},
    Sentence{"too_light_for_ivermectin",
             "it weighs {weight}; ivermectin spray needs at least {least_bedding} for the bedding and "
             "{least_animal} for the animal",
             "ivermectin spray needs at least {least_bedding} for the bedding and {least_animal} for the "
             "animal",
             "{weight}"},

    // Shed
    Sentence{"about_to_shed", "it is about to shed (cloudy since {since})", "it is about to shed",
             "cloudy since {since}"},
    Sentence{"shed_may_come",
             "it was cloudy from {since} and is clear now, and no shed was seen: it may be to come",
             "it was cloudy and is clear now, and no shed was seen: it may be to come",
             "cloudy from {since}"},
    Sentence{"wait_for_shed", "wait for the shed, record it, and go on the day after"},
    Sentence{"just_shed", "it shed on {shed}", "it has just shed", "on {shed}"},
    Sentence{"go_on_from", "go on from {from}"},
    Sentence{"soak_before_shed",
             "{animal}: it is about to shed: plain water only, nothing rubbed or pulled off"},
    Sentence{"only_once_shed",
             "{animal}: only once it has shed (cloudy since {since}): record the shed, go on the day after"},

    // Condition
    Sentence{"sick", "it is sick (noted {noted})", "it is sick", "noted {noted}"},
    Sentence{"thin", "it is thin (noted {noted})", "it is thin", "noted {noted}"},
    Sentence{"dehydrated", "it is dehydrated (noted {noted})", "it is dehydrated", "noted {noted}"},
    Sentence{"neonate", "it is a neonate (noted {noted})", "it is a neonate", "noted {noted}"},
    Sentence{"gravid", "it is gravid (noted {noted})", "it is gravid", "noted {noted}"},
    Sentence{"neurological", "it shows neurological signs (noted {noted})", "it shows neurological signs",
             "noted {noted}"},
    Sentence{"reacted", "it reacted to {agent|a treatment} before (noted {noted})",
             "it reacted to {agent|a treatment} before", "noted {noted}"},
    Sentence{"rests_after_reaction",
             "it reacted to {agent|a treatment} before (noted {noted}) and is left alone until it is well",
             "it reacted to {agent|a treatment} before and is left alone until it is well", "noted {noted}"},
    Sentence{"state_not_known", "nobody could say whether it is {state} (asked {asked})",
             "nobody could say whether it is {state}", "asked {asked}"},
    Sentence{"tell_state", "look, say on its page whether it is, and work out the plan again"},
    Sentence{"sign_present", "it shows a sign of illness: {sign} (seen {seen})", "it shows a sign of illness",
             "{sign}, seen {seen}"},
    Sentence{"vet_today",
             "ring a veterinarian today; until then warm within its range, dark and dry, and no further "
             "treatment"},
    Sentence{"death_in_company",
             "{who:all} died on {died}, and nobody has said yet that it had other reasons",
             "{who:all} died on {died}, and nobody has said yet that it had other reasons"},
    Sentence{"look_into_death",
             "keep the body cool, not frozen, and ask a veterinarian; then say that treatment goes on"},
    Sentence{"vet_and_paper", "ask a veterinarian; change the bedding to paper meanwhile"},
    Sentence{"gently_while_gravid",
             "ask a veterinarian; meanwhile new paper, and a clean tub before she lays"},

    // Meals
    Sentence{"just_fed", "it ate on {fed}: left alone for {rest} after a meal",
             "it has eaten: left alone for {rest} after a meal", "ate on {fed}"},
    Sentence{"large_meal", "it ate {meal} on {fed} and weighs {weight}, a large meal: left alone for {rest}",
             "it has eaten a large meal: left alone for {rest}", "{meal} on {fed}, weighs {weight}"},
    Sentence{
        "meal_of_unknown_size",
        "it ate on {fed}, how much for its weight is not known, so it counts as a large meal: left alone "
        "for {rest}",
        "it has eaten, how much for its weight is not known, so it counts as a large meal: left alone for "
        "{rest}",
        "ate on {fed}"},
    Sentence{"brought_up", "it brought up its meal on {day}: left alone for {rest}",
             "it brought up its meal: left alone for {rest}", "on {day}"},
    Sentence{"brings_up_again", "it brought up meals {times} times within {window}: it may be ill"},
    Sentence{
        "ate_treated_prey",
        "it ate prey treated for mites on {fed}: an unknown amount of a drug is in it; snakes have died of "
        "it",
        "it ate prey treated for mites: an unknown amount of a drug is in it; snakes have died of it",
        "on {fed}"},

    // Eggs
    Sentence{"eggs_inside", "eggs are in {where}: nothing is done in there against mites"},
    Sentence{
        "eggs_out_first",
        "look at the outside of the box; new substrate only around the eggs, not turned, not wiped; or take "
        "them to an incubator first"},
    Sentence{"eggs_in_the_room", "eggs are in {where}: the room is not treated around them"},
    Sentence{"eggs_to_another_room", "take the eggs to another room first, without turning them"},

    // Strength of the mix
    Sentence{"strength_unknown", "the strength of the mix is not known"},
    Sentence{"bench_first", "work it out on the mixing bench first"},
    Sentence{"weak_spray", "{strength} is weaker than any published spray ({weakest})"},
    Sentence{"beyond_practice", "{strength} is beyond any practice known: nothing above {most} is permitted"},
    Sentence{"mix_at_most", "mix at most {most}"},
    Sentence{"strong_spray", "{strength} is {multiple} times the strongest published spray ({strongest})"},
    Sentence{"strong_spray_unweighed",
             "{strength} is {multiple} times the strongest published spray ({strongest}); how much a light "
             "misting leaves on this animal is unknown without its weight"},
    Sentence{"strong_spray_on_animal",
             "{strength} is {multiple} times the strongest published spray ({strongest}); a light misting "
             "would leave about {likely} on this animal ({low} to {high}), where veterinarians inject "
             "{injected}",
             "{strength} is {multiple} times the strongest published spray ({strongest}), where "
             "veterinarians inject {injected}",
             "about {likely} on it ({low} to {high})"},
    Sentence{"acknowledge_for_animal",
             "mix at most {most}, or ask a veterinarian, or read this caution and acknowledge the strength "
             "for this animal"},
    Sentence{"acknowledge_for_empty",
             "mix at most {most}, or ask a veterinarian, or read this caution and acknowledge the strength "
             "for places where no animal lives"},
    Sentence{"strong_permethrin", "{strength} of permethrin is stronger than the usual {usual}"},
    Sentence{"mix_by_label", "mix at most {most} and follow the label"},

    // Drugs, and two of them
    Sentence{"prescription",
             "this is a prescription drug used outside its label; no dose is worked out here"},
    Sentence{"record_direction", "ask a veterinarian and record the direction: who, when, what"},
    Sentence{"fipronil_disputed", "fipronil on reptiles is disputed: deaths are reported"},
    Sentence{"fipronil_not_for_kind", "fipronil is not for a {kind}"},
    Sentence{"fipronil_not_for_small", "fipronil is not for small animals"},
    Sentence{"two_agents",
             "{agent} after or before {other} ({method}, {day}): two acaricides on one animal in one course",
             "{agent} after or before {other}: two acaricides on one animal in one course",
             "{method}, {day}"},
    Sentence{"stay_with_one", "stay with one, or ask a veterinarian"},
    Sentence{"injection_and_spray",
             "ivermectin as an injection and as a spray within {distance} of each other: it gets both"},
    Sentence{"gentler_or_vet_who_injects",
             "use gentler methods meanwhile, or ask the veterinarian who gives the injection"},

    // How often
    Sentence{"too_soon", "the animal has or is to have another application within {interval}"},
    Sentence{"too_often", "this would be application {number} within {window}; a course has at most {most}",
             "at most {most} applications in a course of {window}", ""},
    Sentence{"enclosure_and_checks", "treat the enclosure and check instead, or ask a veterinarian"},

    // What does not go together
    Sentence{"oil_and_acaricide",
             "oil and an acaricide within {distance} of each other: the acaricide dissolves in the oil and "
             "may go through the skin with it"},
    Sentence{"kills_predators",
             "an acaricide or dust is in the enclosure within {distance}: it kills the predatory mites"},
    Sentence{"predators_need_substrate",
             "predatory mites need loose, damp substrate; on paper or bare floor they die"},
    Sentence{"ends_predators", "this ends the predatory mites released on {released}"},

    // Water to drink, and wet paper
    Sentence{"rainforest",
             "a {kind} dries out quickly: nothing is sprayed with the water dish in, and it is never left "
             "without"},
    Sentence{"keeps_its_dish",
             "it is {condition}: nothing is sprayed with the water dish in, and it is never left without"},
    Sentence{"too_small_to_go_dry",
             "it weighs less than {least}: nothing is sprayed with the water dish in, and it is never left "
             "without"},
    Sentence{"dish_stays_in", "use soak, wipe and paper changes, the dish stays in; ask a veterinarian"},
    Sentence{"damp_paper_dose",
             "{animal}: paper wet with {strength} brings about {likely} a day to its skin ({low} to {high}), "
             "taking {skin} of belly and coil to meet all that wets the paper under it"},
    Sentence{"day_is_over", "that day is over"},
    Sentence{"dish_must_be_in", "nothing is wetted with the water dish in, and it must be in on {day}"},
    Sentence{"dish_out_too_long", "the water dish would be out for more than {days} days of this course"},
    Sentence{"paper_wet_too_long", "the paper would be wet for more than {days} days of this course"},

    Sentence{"dish_still_in", "the water dish is still in: take it out first, then this comes back"},

    // Those that share the air, the enclosure or the room
    Sentence{
        "shares_air",
        "{who} ({kind}) shares the air: no ivermectin is sprayed where a tortoise, turtle or crocodilian "
        "breathes"},
    Sentence{"move_to_another_room", "move {who} to another room first and record it"},
    Sentence{"air_of_unknown",
             "{who} shares the air and its species is not known: it may be one that ivermectin kills"},
    Sentence{"name_the_species", "enter the species"},
    Sentence{"next_door", "{who} lives next door: keep the door shut and air the room to the outside"},
    Sentence{"dog_near_ivermectin",
             "{who}: keep the dog out until all is dry; dogs with the ABCB1 mutation are poisoned by "
             "ivermectin from about 0.1 mg/kg on"},
    Sentence{"cat_near_permethrin",
             "{who}: permethrin poisons cats; keep the cat out until all is dry and aired"},
    Sentence{"traces_kill",
             "{who}: traces kill them; move them out until all is dry and aired. Never stop the air of an "
             "aquarium instead: fish suffocate. What cannot be moved: do not spray here"},
    Sentence{"keep_out", "{who}: keep out of the room until all is dry and aired"},
    Sentence{"keep_out_unknown", "{who}: of unknown species; keep out until all is dry and aired"},
    Sentence{"out_of_dust", "{who}: move them out of the air of the dust, it kills or harms them"},
    Sentence{"wet_housemate", "{who} shares its enclosure and may not lie where the spray is wet: {why}"},
    Sentence{"house_apart", "house {who} apart first and record the move"},
    Sentence{"housemates",
             "{animal}: {number} animals share its enclosure: keep it apart until it is dry, or treat all of "
             "them"},
    Sentence{
        "wood_keeps_mites",
        "its enclosure is of wood, which keeps mites and eggs in joints and cracks where washing does not "
        "reach"},
    Sentence{"empty_the_wood",
             "empty the wood instead: house the animal in a plain tub of its own on record and leave the "
             "vivarium empty until what is in it has starved, or change to paper and treat it as it is"},
    Sentence{"tub_does_not_lock",
             "it is venomous, and a plain tub has no lock, no shift box and no way to look in"},
    Sentence{"paper_in_its_own", "fresh paper and checks in its own enclosure"},
    Sentence{"needs_more_than_a_tub",
             "a {kind} needs more than a plain tub gives: light, warmth from above, room"},
    Sentence{
        "house_in_a_tub",
        "{kind}: grown, it does not fit into a plain tub; one weighed of late at {largest} or less does"},
    Sentence{"tub_of_its_size",
             "weigh it; a large one gets fresh paper, or an enclosure of its size that can be washed hot"},
    Sentence{"tub_dries_out",
             "{animal} comes from humid forest and dries out in a bare tub: a damp box and a large bowl that "
             "stay in"},
    Sentence{
        "tub_before_laying",
        "{animal} is gravid: into the clean tub before she lays, never while she lays, with her laying box"},
    Sentence{"room_is_lived_in",
             "it lives in the room and would breathe what is put on floor, racks and walls"},
    Sentence{"empty_the_room",
             "carry every animal to another room and record the moves; treat; bring them back after "
             "{airing:hours} hours, dry and aired"},

    // A veterinarian's direction
    Sentence{"directed", "{animal}: directed by {by} on {day}: {text}"},
    Sentence{"directed_short", "{animal}: directed by {by} on {day}: {text} (does not reach this: {why})"},
    Sentence{"lifted", "{animal}: lifted by the direction: {why}"},
    Sentence{"direction_goes_up_to", "it goes up to {most}, this is {strength}"},
    Sentence{"direction_for_one", "it was for one treatment, which is given or planned"},
    Sentence{"direction_for_some", "it was for {number} treatments, which are given or planned"},

    // What is asked for and is not there
    Sentence{"no_such_animal", "there is no animal of that name: {name}"},
    Sentence{"no_such_enclosure", "there is no enclosure of that name: {name}"},
    Sentence{"no_such_room", "there is no room of that name: {name}"},
    Sentence{"check_the_name", "check the name"},
    Sentence{"not_done_to_an_enclosure", "{method} is not something done to an enclosure"},
    Sentence{"not_done_to_a_room", "{method} is not something done to a room"},
    Sentence{"ask_as_it_is_done", "ask for it by room, enclosure or animal as it is done"},
    Sentence{"nobody_there", "there is no animal in the enclosure: {name}"},
    Sentence{"treat_the_enclosure", "treat the enclosure instead"},

    // What stands in the cupboard
    Sentence{"ingredient_unknown",
             "\"{written}\" is not known here, and what is not known is used on nothing"},
    Sentence{"read_the_label_again",
             "read the label letter by letter; if it says so, leave the bottle closed"},
    Sentence{"ingredient_like",
             "did you mean {names:quoted}? Type it as the label has it; if it says something else, leave the "
             "bottle closed"},
    Sentence{"no_active_ingredient", "no active ingredient is told"},
    Sentence{"rest_not_named", "what is in \"{ingredient}\" is not told"},
    Sentence{"label_strength_missing", "how strong the {ingredient} is, is not told"},
    Sentence{"label_strength_unclear", "\"{amount}\" of {ingredient} does not say how much is in a mL"},
    Sentence{"find_the_strength", "look for mg/mL or % w/v on the label, or ask the pharmacist"},
    Sentence{"label_form_missing", "whether it is a clear solution, a pour-on or a paste is not told"},
    Sentence{"say_what_it_is", "read on the label what it is for and how it is given"},
    Sentence{
        "form_for_mouth_or_skin",
        "a {form} is made to be swallowed or to go through skin, and cannot be measured out for a snake"},
    Sentence{
        "combined",
        "it holds more than one active ingredient ({ingredients:all}): whoever mixes one of them gives the "
        "others too, in a dose nobody has chosen"},
    Sentence{"another_bottle", "use one with a single active ingredient, or ask a veterinarian"},
    Sentence{"wash_heat_or_freeze", "wash it above 50 C, heat it, freeze it or leave it empty instead"},
    Sentence{"no_figures_for",
             "nobody has published how much {ingredient} a snake bears on its skin or in its "
             "enclosure"},
    Sentence{
        "pyrethroid_on_animal",
        "{ingredient} is never put on a reptile: pyrethrins and pyrethroids have killed them, the cool ones "
        "first"},
    Sentence{
        "synergist_on_animal",
        "{ingredient} keeps the body from breaking poisons down: what is mixed with it works stronger on the "
        "animal too"},
    Sentence{"airing_not_known",
             "how long an enclosure must dry and air after {ingredient} before an animal returns is not "
             "known here"},
    Sentence{"nerve_poison",
             "{ingredient} is a poison of the nerves: reptiles have died of a trace of it, also breathed in"},
    Sentence{"not_for_mites", "{ingredient} is not known to kill mites in an enclosure"},
    Sentence{"burns_skin_and_eyes",
             "{ingredient} harms skin, eyes and mouth, or is swallowed from the scales"},
    Sentence{"antiseptic_on_animal",
             "{ingredient} is for wounds, thinned as a veterinarian says; it kills no mites"},
    Sentence{"phenol",
             "{ingredient} is a phenol or holds some: it burns reptiles and poisons them through skin and "
             "air"},
    Sentence{"essential_oil_on_animal",
             "{ingredient} goes through skin and is breathed in: essential oils have poisoned reptiles"},
    Sentence{
        "smell_stays",
        "the smell of {ingredient} stays in plastic and wood, and how much of it a snake bears is not known"},
    Sentence{"vapour_poison", "{ingredient} poisons by its vapour, which stays in plastic and wood"},
    Sentence{"dust_on_animal", "{ingredient} is a dust: it dries skin and harms lungs"},
    Sentence{"another_drug", "{ingredient} is another drug, in a dose nobody has chosen for a snake"},
    Sentence{
        "each_animal_by_its_verdict",
        "This is about the bottle. Whether an animal may be given it stands in the animal's own verdict"},
    Sentence{"kills_no_mites", "{ingredient} does not kill mites: it cleans, and no more"},
    Sentence{"rinse_and_dry", "With the animals out; rinse it off, dry and air until nothing smells"},
    Sentence{"bleach_alone", "Bleach alone: with an acid, vinegar or ammonia it makes a poisonous gas"},
    Sentence{"burns_easily",
             "It burns easily: no flame, no heat source, no spark until all is dry and aired"},
    Sentence{"percent_as_in_volume",
             "The label does not say what its per cent of {ingredient} are of: taken as {strength}"},

    // Cautions of each method
    Sentence{"gloves_and_air",
             "Wear gloves, a mask and glasses, air the room, keep away from food; whoever is pregnant or has "
             "asthma "
             "stays out; wash the clothes afterwards"},
    Sentence{"label_and_law",
             "This does not replace a veterinarian; the product's label and the law of your country come "
             "first (US: 21 CFR part 530)"},
    Sentence{"law_of_the_union",
             "In the European Union animals may be given medicines off the label only as Regulation (EU) "
             "2019/6 allows"},
    Sentence{"plain_solution_only",
             "Only from a plain solution of ivermectin alone: never a pour-on, a paste or a combination with "
             "other drugs"},
    Sentence{"shake_before_use",
             "Only about {dissolves} dissolves, the rest floats: shake before every use, keep dark"},
    Sentence{
        "leftovers_of_ivermectin",
        "Leftover mix never goes to drain, soil or water: ivermectin kills water fleas near 6 ng/L. Take "
        "it to a pharmacy or hazardous-waste point"},
    Sentence{"eggs_survive", "Eggs survive it: the mites that hatch later need the next round"},
    Sentence{"dish_out_while_wet",
             "Nothing is sprayed or wetted with the water dish in: take it out first, put it back as soon as "
             "all is dry, never leave it out longer than {longest}, and offer a drink outside the enclosure "
             "meanwhile; look for wrinkled skin and sunken eyes"},
    Sentence{"wet_bedding_and_skin",
             "Wet bedding inflames the skin: look at the belly scales before every wetting; at the first "
             "blister or redness stop, lay dry paper and ask a veterinarian"},
    Sentence{"paper_wet_at_most", "Paper is wet with spray on at most {longest} of one course"},
    Sentence{"not_on_the_head",
             "Never spray head, eyes, mouth or vent: mist lightly from the neck back and spread it by hand; "
             "never soak the animal in the mix"},
    Sentence{"permethrin_not_on_animals",
             "Never on the animal: pyrethroids have killed reptiles, and cool animals bear far less (green "
             "anoles: LC50 77.6 mg/L at 20 C, above 300 mg/L at 35 C)"},
    Sentence{"dry_and_aired",
             "Dry and aired for {airing:hours} hours ({least:hours} at least) before an animal returns"},
    Sentence{
        "permethrin_and_others",
        "Cats, fish, amphibians and invertebrates anywhere in the house must not come near it; leftovers "
        "never go to drain, soil or water"},
    Sentence{"mites_climb_to_the_head",
             "The mites climb to the head: look at eyes, chin and heat pits afterwards"},
    Sentence{
        "head_by_two",
        "One holds the body, one goes over the head; a fresh bud for each animal, and it goes into soapy "
        "water at once. Stop if it gapes or fights"},
    Sentence{
        "only_plain_lubricant",
        "At the eyes plain eye lubricant and nothing else: no oil, no soap, no spray, none with a drug in "
        "it"},
    Sentence{
        "leave_eye_caps",
        "Never pull at an eye cap or push into a heat pit or the vent; swollen, cloudy in one eye or a cap "
        "left from a shed: a veterinarian"},
    Sentence{
        "soak_temperature",
        "Plain water of {low:number} to {high} by a thermometer, before the animal goes in and every ten "
        "minutes"},
    Sentence{"soak_depth_and_time",
             "No deeper than the animal is thick, with something to rest its chin on above the water; "
             "{longest:minutes} minutes at most, never left alone, fresh water for each animal"},
    Sentence{
        "stop_the_soak",
        "Stop at once if it gapes, bubbles at the nose, rolls, goes limp or cannot hold its head up: "
        "out, dry and warm, and ask a veterinarian. Thin, weak or badly breathing animals are not soaked "
        "without one"},
    Sentence{"as_directed_only",
             "Only as a veterinarian directed for this very animal; no dose is worked out here"},
    Sentence{"nothing_comes_along",
             "Nothing of the old tub comes along: no hide, branch, bowl, paper or towel. One hide that is "
             "thrown away (a box of card), bare paper, a clean bowl; look the animal over while you hold it"},
    Sentence{"tub_is_a_home",
             "It lives there until the next round: a lid that locks, air holes, warm and cool end measured, "
             "room to lie and turn, something to climb that is thrown away for those that climb, a damp box "
             "for those that need one"},
    Sentence{
        "heat_off_until_dry",
        "The heat source stays off until the tub is dry all over and its sensor is fixed; measure before "
        "the animal goes in"},
    Sentence{
        "wash_hot",
        "The old tub, its lid, bowl and runners: out of the room in a closed bag, then water above "
        "{temperature} on every side and into every rim, or a freezer, or closed up and left; dry before "
        "it is used again. Mind your hands: it scalds"},
    Sentence{"out_in_a_bag",
             "Carry it out of the room in a closed bag; the bag goes the same way or is thrown away"},
    Sentence{"dry_before_it_goes_back",
             "Hot water scalds; keep it hot on every side and in every crack, and dry the thing all through "
             "before it goes back"},
    Sentence{
        "unplug_first",
        "Unplug it and let it cool; never into water, oven or freezer; plug it in only when it is dry all "
        "through"},
    Sentence{"bag_the_bedding",
             "Tie the old bedding into a bag inside the room and take it out of the house at once: eggs and "
             "mites are in it"},
    Sentence{"oil_is_a_home_remedy",
             "Home remedy with little behind it: it smothers some mites, leaves eggs and those in the "
             "enclosure, and makes the skin shed badly"},
    Sentence{
        "plain_oil_only",
        "Plain food oil only, a thin film, never on nostrils, mouth, eyes or vent; wipe off what is left "
        "and keep the animal warm"},
    Sentence{
        "soap_is_a_home_remedy",
        "Home remedy with little behind it: a drop of mild, unscented soap in lukewarm water, rinsed off "
        "at once, never on the head, not more than once a week"},
    Sentence{"heat_all_through",
             "No animal near it. {temperature} all through for {time:hours} hours; measure inside the "
             "thickest piece; cooled down and dry before the animal returns"},
    Sentence{"fire", "Fire: stay with it, nothing that melts, no open flame, no steam on cables"},
    Sentence{"cold_all_through",
             "Objects only, in a closed bag, at {temperature} for {time} once frozen through; a related mite "
             "outlived 5 days at -15 C"},
    Sentence{"dust_in_the_empty",
             "Only in the emptied enclosure and along the walls of the room, for about {time:hours} hours, "
             "then wiped and vacuumed out; never on an animal or where one lies"},
    Sentence{
        "dust_and_lungs",
        "The dust harms lungs, yours and theirs: wear a mask, take every animal out of the air of it; it "
        "kills invertebrates"},
    Sentence{
        "predators_small_trials",
        "Small trials only; they eat eggs and young mites in the substrate, not the mites on the animal, "
        "and do not end an outbreak alone"},
    Sentence{"predators_not_with_acaricides",
             "Not together with acaricides or dust: {distance} after the last of them at the earliest"},
};

}  // namespace

std::span<const Sentence> safety() { return safety_sentences; }

}  // namespace mitefall::words::en
