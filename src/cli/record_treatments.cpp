#include "cli/record_options.h"

namespace mitefall::cli {

FactMaker treatment_options(CLI::App& command) {
    using Treatment = records::Treated;
    return FactOptions<Treatment>(command)
        .needs("ENCLOSURE", &Treatment::enclosure)
        .needs("METHOD", &Treatment::method, "What was done: " + records::list_texts<records::Method>())
        .may("--animals", &Treatment::animals, "Animals treated (default: the enclosure only)")
        .may("--strength", &Treatment::strength, "Strength of the spray, like \"10 mg/L\"");
}

FactMaker room_treatment_options(CLI::App& command) {
    using Treatment = records::RoomTreated;
    return FactOptions<Treatment>(command)
        .needs("ROOM", &Treatment::room)
        .may("--strength", &Treatment::strength, "Strength of the spray, like \"5000 mg/L\"");
}

FactMaker substrate_options(CLI::App& command) {
    using Change = records::SubstrateChanged;
    return FactOptions<Change>(command)
        .needs("ENCLOSURE", &Change::enclosure)
        .begins("--to", &Change::to, "paper, loose or none");
}

FactMaker water_options(CLI::App& command) {
    using Water = records::WaterMoved;
    return FactOptions<Water>(command)
        .needs("ENCLOSURE", &Water::enclosure)
        .either("DISH", &Water::out, "out", "back");
}

FactMaker wetting_options(CLI::App& command) {
    return FactOptions<records::PaperWetted>(command).needs("ENCLOSURE", &records::PaperWetted::enclosure);
}

FactMaker direction_options(CLI::App& command) {
    using Direction = records::VetDirection;
    FactOptions<Direction> options(command);
    options.needs("ANIMAL", &Direction::animal)
        .needs("METHOD", &Direction::method, "What was directed: " + records::list_texts<records::Method>())
        .needs("--who", &Direction::who, "The veterinarian")
        .needs("--text", &Direction::text, "The direction, in full")
        .may("--up-to", &Direction::strength,
             "Strongest mix it names, like \"200 mg/L\" (default: none above the published ones)")
        .may("--treatments", &Direction::treatments, "How many it names (default: one)");
    command.get_option("--treatments")->check(CLI::Range(1, 100));
    return options;
}

FactMaker acknowledgement_options(CLI::App& command) {
    using Acknowledged = records::StrengthAcknowledged;
    return FactOptions<Acknowledged>(command)
        .needs("STRENGTH", &Acknowledged::strength, "Like \"200 mg/L\"")
        .may("--animal", &Acknowledged::animal,
             "The animal it is for (left out: only for places where no animal lives)");
}

FactMaker veterinarian_options(CLI::App& command) {
    using Named = records::VeterinarianNamed;
    return FactOptions<Named>(command)
        .needs("NAME", &Named::who, "Who is rung, like \"Clinic at the bridge\"")
        .needs("--telephone", &Named::telephone, "As it is dialled, like \"+49 30 1234567\"");
}

}  // namespace mitefall::cli
