#include <functional>
#include <memory>
#include <string>

#include "cli/commands.h"
#include "cli/record_kind.h"
#include "cli/record_options.h"
#include "cli/recording.h"

namespace mitefall::cli {
namespace {

/// Adds "record NAME"; `fill` adds the options and returns how to make the fact from them.
void add_kind(CLI::App& record, const std::shared_ptr<Recording>& recording, const std::string& name,
              const std::string& help, const std::function<FactMaker(CLI::App&)>& fill) {
    CLI::App* const command = record.add_subcommand(name, help);
    command->add_option("--on", recording->day, "Day it happened (default: today)");
    command->add_flag("--knowing", recording->knowing,
                      "Record it although it asks first: you have read what it does");
    command->add_option("--knowing-because", recording->knowing_because,
                        "The same, with why; the reason goes on record");
    command->add_option("--corrects", recording->corrects, "Number of the entry this one replaces");
    recording->context.on_chosen(*command, [recording, make = fill(*command)] {
        return put_on_record(*recording, with_full_kind(recording->context, make()));
    });
}

/// How animals are, and what is done to them, their things and their places.
void add_treating(const std::function<void(const char*, const char*, FactMaker (*)(CLI::App&))>& add) {
    add("thing", "A hide, branch, bowl, bag, rack ... and where it is kept", thing_options);
    add("thing-treatment", "A thing was washed hot, heated, frozen or thrown away", thing_treatment_options);
    add("thing-gone", "A thing is no longer kept", thing_gone_options);
    add("stock", "A bottle of ivermectin to mix from", stock_options);
    add("stock-gone", "A bottle of stock is empty or disposed of", stock_gone_options);
    add("weight", "An animal was weighed", weight_options);
    add("shed", "An animal is cloudy, or has shed", shed_options);
    add("meal", "A meal was eaten, refused or brought up again; never feed prey treated for mites of its own",
        meal_options);
    add("eggs", "Eggs are in an enclosure, an incubator or a box ... or no longer", eggs_options);
    add("condition", "An animal falls ill, is gravid, reacted ... or no longer", condition_options);
    add("asked", "Somebody was asked whether an animal is about to shed, gravid or newborn", asked_options);
    add("signs", "Somebody looked an animal over for the signs that mean a veterinarian today",
        signs_options);
    add("treatment", "A treatment was given", treatment_options);
    add("room-treatment", "Floor, racks and walls of a room were treated", room_treatment_options);
    add("substrate", "Substrate was changed", substrate_options);
    add("water", "The water dish went out or back", water_options);
    add("wetting", "Sprayed paper was wetted again with the spray", wetting_options);
    add("veterinarian", "Who is rung when an animal is ill, and the telephone number", veterinarian_options);
    add("direction", "A veterinarian directed something", direction_options);
    add("acknowledgement", "You have read the caution about a strength and accept it",
        acknowledgement_options);
}

}  // namespace

void add_record_commands(CLI::App& app, Context& context) {
    CLI::App* const record = app.add_subcommand("record", "Put a fact on record");
    record->require_subcommand(1);
    record->fallthrough();
    const auto recording = std::make_shared<Recording>(Recording{context, {}, 0, false, {}, false});
    const auto add = [&](const char* name, const char* help, FactMaker (*fill)(CLI::App&)) {
        add_kind(*record, recording, name, help, fill);
    };
    add("sighting", "Mites were seen", sighting_options);
    add("check", "Somebody looked for mites", check_options);
    add("trap-routine", "A paper trap lies in every enclosure and is read every so many days",
        trap_routine_options);
    add("room", "A room", room_options);
    add("enclosure", "An enclosure", enclosure_options);
    add("stand", "Where an enclosure stands: rack, level and position", stand_options);
    add_kind(*record, recording, "arrival", "An animal comes into the collection",
             [recording](CLI::App& command) { return arrival_options(command, recording); });
    add("move", "An animal goes to another enclosure", move_options);
    add("departure", "An animal leaves the collection", departure_options);
    add("death-answer", "After a death: its company may be treated again, and why", death_answer_options);
    add("quarantine-end", "An animal is no longer in quarantine", quarantine_end_options);
    add("bystander", "Other life in the house: dogs, cats, fish, frogs ...", bystander_options);
    add("bystander-move", "Other life moved out of the air it shared, or is back", bystander_moved_options);
    add("handling", "Animals handled one after another", handling_options);
    add("shared-item", "A tool, hide or bowl used in two enclosures", shared_item_options);
    add("outside", "Contact with animals elsewhere: a show, a shop, a visitor, things that came from there",
        outside_options);
    add_treating(add);
}

}  // namespace mitefall::cli
