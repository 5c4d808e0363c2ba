#include <array>

#include "words/en/sentences.h"

// What the day's work says (worklist/work.def). A treatment has one sentence for each method.
namespace mitefall::words::en {
namespace {

constexpr std::array work_sentences{
    Sentence{"treat/spray-animal", "Mist {who:all} lightly from the neck back and spread it by hand"},
    Sentence{"treat/spray-bedding", "Spray paper and walls of {where} until just wet"},
    Sentence{
        "treat/soak",
        "Soak {who:all} for 30 minutes in plain water of 28 to 30 C, chin resting above it, never alone"},
    Sentence{"treat/wipe", "Wipe {who:all} down with a damp cloth from neck to tail"},
    Sentence{
        "treat/clear-head",
        "Head of {who:all}: damp cotton bud along chin groove, heat pits, mouth corners and vent, plain eye "
        "lubricant at the rims of the eyes; count what comes off"},
    Sentence{"treat/change-substrate", "Take everything out of {where}, bag it, put fresh paper in"},
    Sentence{"treat/fresh-tub",
             "Carry {who:all} from {where} into a clean plain tub: bare paper, one hide to throw away; close "
             "the old one up in a bag"},
    Sentence{"treat/treat-room", "Treat floor, racks and walls of the emptied {where} with permethrin"},
    Sentence{"treat/permethrin-empty", "Treat the emptied {where} with permethrin, let it dry and air"},
    Sentence{"treat/fipronil-wipe", "Give {who:all} what the veterinarian directed ({method})"},
    Sentence{"treat/oral-afoxolaner", "Give {who:all} what the veterinarian directed ({method})"},
    Sentence{"treat/oral-fluralaner", "Give {who:all} what the veterinarian directed ({method})"},
    Sentence{"treat/injected-ivermectin", "Give {who:all} what the veterinarian directed ({method})"},
    Sentence{"treat/oil-wipe", "Wipe a thin film of plain oil over {who:all}, not the head"},
    Sentence{"treat/soap-wash", "Wash {who:all} with a little mild soap and rinse it"},
    Sentence{"treat/heat-objects", "Heat the emptied {where} and its objects"},
    Sentence{"treat/freeze-objects", "Freeze the objects of {where}"},
    Sentence{"treat/desiccant-dust", "Dust the emptied {where}, then take all dust out"},
    Sentence{"treat/predatory-mites", "Release the predatory mites into {where}"},
    Sentence{"treat_somehow", "Treat {who}"},
    Sentence{"into_treatment_tub",
             "Carry {who:all} out of {where} into a clean plain tub, {tub}: bare paper, one hide to throw "
             "away; it lives there until {where} is clear"},
    Sentence{"leave_wood_empty",
             "{where} stands empty: everything out, vacuumed, nobody back in; {temperature} all through for "
             "{time:hours} hours ends what is in it at once, else it has to starve"},
    Sentence{"wood_left_empty", "{where} stands empty"},
    Sentence{"ask_for_wood",
             "Ask when {who:all} may go back to {where}: its page tells when nothing is alive in it; once "
             "moved back this ends"},
    Sentence{"asked_for_wood", "Asked when {where} may be lived in again"},
    Sentence{"wash_old_tub",
             "Wash the old tub of {where} and its bowl above {temperature}, or freeze them, or leave them "
             "closed up; dry before the next round"},
    Sentence{"old_tub_done", "The old tub of {where}"},
    Sentence{"wash_thing", "Wash above {temperature}, in every crack: {what}, {where}"},
    Sentence{"heat_thing", "Dry heat of {temperature}, back on {back} at the earliest: {what}, {where}"},
    Sentence{"freeze_thing", "Into the freezer in a bag, back on {back} at the earliest: {what}, {where}"},
    Sentence{"throw_thing", "Into a closed bag and throw away: {what}, {where}"},
    Sentence{"air_thing",
             "Spray it outside the room and air it, back on {back} at the earliest: {what}, {where}"},
    Sentence{"thing_done", "Free of mites: {what}, {where}"},
    Sentence{"dish_out", "Take the water dish out of {where}"},
    Sentence{
        "dish_back_today",
        "Put the water dish back into {where}, fresh water, dry paper where it is still wet; look for loose "
        "skin folds"},
    Sentence{
        "dish_back_once_dry",
        "Put the water dish back into {where} once its paper feels dry, fresh water; look for loose skin "
        "folds"},
    Sentence{"dish_back", "Put the water dish back into {where}"},
    Sentence{"wet_again", "Wet the paper of {where} again where it has dried"},
    Sentence{"wetted_again", "Wet the paper of {where} again"},
    Sentence{
        "drink_in_box",
        "Offer a drink outside {where} to {who:all}, in a clean box: shallow lukewarm water, watched; back "
        "when dry"},
    Sentence{"drink_in_shift_box",
             "Offer a drink outside {where} to {who:all}, in its locked shift box: shallow lukewarm water, "
             "watched; back when dry"},
    Sentence{"drink", "Offer a drink outside {where}"},
    Sentence{"look",
             "Look for mites in {where}: chin, eyes, heat pits, vent, under the belly scales, water dish"},
    Sentence{"look_without_hands",
             "Look for mites in {where} by a paper trap or through the glass, nothing by hand"},
    Sentence{"look_around_eggs",
             "Look for mites around the eggs in {where}: outside of the box, rim and lid; no egg is turned"},
    Sentence{"read_trap",
             "Read the paper trap in {where}: fold it open over white paper, look with a lens, count; lay a "
             "new one"},
    Sentence{"lay_traps", "Lay a paper trap in {where}; it is read on {read}"},
    Sentence{"mix_spray",
             "Mix today's spray, or use the batch in hand if it is in date; shake before every use"},
    Sentence{"change_gloves", "Change gloves, wash hands; tools stay in their room"},
    Sentence{
        "after_outside",
        "After {what} ({on}): clothes and shoes off before the snake room and washed hot; bags and what was "
        "bought stay out"},
    Sentence{
        "outside_visitor",
        "A visitor ({on}): hands washed, an overall of the house, no animal held, bag and hook of their own "
        "stay out"},
    Sentence{
        "outside_thing",
        "A borrowed thing ({on}) goes to no snake before it was washed above 50 C, kept at 45 C for 48 hours "
        "or in the freezer for 7 days"},
    Sentence{"outside_wood",
             "Second-hand wood ({on}) goes to no snake before it was kept at 45 C for 48 hours, all through"},
    Sentence{"outside_plants",
             "Live plants ({on}) stay out of the snake room until they have new soil, washed pots and rinsed "
             "leaves"},
    Sentence{"outside_hands", "Wash hands and arms with soap, rings and watch off"},
    Sentence{"outside_wait", "Nobody who was there goes to the snakes before {until}"},
    Sentence{"change_clothes", "Take off gloves, wash hands and arms, change clothes and wash them hot"},
    Sentence{
        "hold_meal",
        "No meal for {who} before {from}: wet, moved or soon to be treated; fed sooner, its treatment waits"},
    Sentence{"gravid_here",
             "Gravid, {who}: new paper and a clean tub before she lays, no spray without a veterinarian"},
    Sentence{
        "eggs_here",
        "Eggs in {where}: look at the outside of the box; new substrate only around them, not turned, not "
        "wiped, nothing sprayed"},
    Sentence{"hatchlings_here", "Hatchlings of {where}: each into a clean tub on bare paper, and never back"},
    Sentence{"step_animal_out", "The animal into a closed box whose lid locks, out of the way"},
    Sentence{"step_shift_box",
             "The animal locked into its shift box by a trained handler, a second person present"},
    Sentence{"step_bag", "Paper, card and what is thrown away into a bag; tie it inside the room"},
    Sentence{"step_things", "Things out in a closed bag: each is a task of its own"},
    Sentence{"step_brush_tub",
             "Brush rims, lid, air holes and labels; vacuum up what falls, its bag out of the house"},
    Sentence{"step_wash_tub", "To the bath or shower: water above {temperature} on every side, lid and rims"},
    Sentence{"step_wash_in_place",
             "From top to bottom with cloths out of water above {temperature}, fresh as it cools; vents and "
             "runners last"},
    Sentence{"step_vacuum_wood",
             "Vacuum joints, screw holes, vents and runners with a narrow nozzle; its bag out of the house"},
    Sentence{"step_wipe_wood", "Wipe with a cloth wrung out hot; wood is not soaked"},
    Sentence{"step_wood_keeps",
             "Joints still hold mites and eggs: only heat of {temperature} all through, or time without an "
             "animal, ends them"},
    Sentence{"step_dry", "Dry all over"},
    Sentence{"step_disinfect",
             "A disinfectant, if you want one, as its label says, rinsed and dry again: it is against germs "
             "and does "
             "not kill mites"},
    Sentence{"step_paper", "Bare white paper in; only things free of mites go back"},
    Sentence{"step_heat", "Heat on, sensor fixed; measure before the animal goes in"},
    Sentence{"step_hands", "Gloves off, hands and arms washed, before the next"},
    Sentence{"step_room_empty", "Everybody out of the room: animals, fish and frogs, bowls and food"},
    Sentence{"step_rack_out", "Tubs out of the racks; heat mats unplugged"},
    Sentence{"step_room_vacuum",
             "Vacuum rails, cracks, edges of the floor, under and behind; its bag out of the house"},
    Sentence{"step_room_wash", "Rails, shelves and floor with water above {temperature}"},
    Sentence{"step_room_treat", "Cracks, edges and rails as the label says; gloves, mask, window open"},
    Sentence{"step_room_air", "Dry and aired for {airing} before anybody is back"},
    Sentence{"ring_vet", "Ring a veterinarian today about {who:all}: {signs:listed} (seen {seen})"},
    Sentence{"rang_vet", "Ring a veterinarian about {who}"},
    Sentence{"sign_of_illness", "{sign}"},
    Sentence{"until_the_vet",
             "Until then {who:all} stays warm within its range, dark and dry, and gets no further treatment"},
    Sentence{
        "still_ill",
        "{who:all}: {signs:listed} (seen {seen}). Warm within its range, dark, dry, no treatment, until the "
        "sign is gone"},
    Sentence{"dry_tub",
             "Carry {who:all} from {where} into a clean dry tub: dry paper, one hide, water to drink; "
             "nothing more "
             "on its skin"},
    Sentence{"dry_in_its_own",
             "Dry out {where} for {who:all}: all paper out, dry paper in, water to drink; nothing more on "
             "its skin"},
    Sentence{"dry_tub_done", "{who} goes somewhere clean and dry"},
    Sentence{"body_kept",
             "Keep the body of {who:all} cool, bagged and not frozen, and ring a veterinarian about an "
             "examination, "
             "by {until} at the latest"},
    Sentence{
        "company_waits",
        "{who:all} died on {died}: its company gets nothing against mites until somebody says that treatment "
        "goes on"},
    Sentence{"adopted", "{parts:listed}"},
    Sentence{"rounds_on", "{rounds:counted round} on {day}"},
    Sentence{"rounds_from_to", "{rounds:counted round} from {first} to {last}"},
    Sentence{"no_rounds", "0 rounds"},
    Sentence{"of_enclosures", "{enclosures:counted enclosure}"},
    Sentence{"floors_of_rooms", "floor and racks of {rooms:counted room}"},
    Sentence{"soaked_not_sprayed", "animals soaked in plain water, not sprayed"},
    Sentence{"kept_damp", "paper kept damp with the spray"},
};

}  // namespace

std::span<const Sentence> work() { return work_sentences; }

}  // namespace mitefall::words::en
